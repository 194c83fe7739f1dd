import type { PlacedProblem } from '../text/placed-problem.ts'
import type { YamlSource } from '../yaml/yaml-source.ts'
import type { Settings } from './spec.ts'
import type { WrittenSpec } from './written-spec.ts'

/**
 * One spec of several that extend each other. A key that an extending one has counts whole: a rule's options, `naming`,
 * `advisory`, `waivers`, `consent`. Deliverables are merged by their names and within each by rule; `false` leaves one out.
 * @param layers the extending one before the one that it extends
 */
export function mergedSpec(layers: readonly WrittenSpec[]): WrittenSpec {
  const [base, ...others] = layers.toReversed()
  if (!base) throw new Error('A spec has at least its own text.')
  let merged = base
  for (const own of others) merged = { ...merged, ...own, deliverables: mergedOrders(merged, own) }
  return merged
}

type Orders = Readonly<Record<string, Settings | false | null>>

function mergedOrders({ deliverables: base = {} }: WrittenSpec, own: WrittenSpec): Orders {
  const orders = new Map(Object.entries(base))
  for (const [name, settings] of Object.entries(own.deliverables ?? {})) {
    if (settings === false) orders.delete(name)
    else orders.set(name, { ...(orders.get(name) || {}), ...settings })
  }
  return Object.fromEntries(orders)
}

/** The names of the deliverables that are ordered in the end, of texts that may not fit their schemas. */
export function orderedNames(layers: readonly { readonly source: YamlSource }[]): string[] {
  const names = new Set<string>()
  for (const { source } of layers.toReversed())
    for (const [name, settings] of entriesOf(source)) {
      if (settings === false) names.delete(name)
      else names.add(name)
    }
  return [...names]
}

/** Deliverables that are left out and that no extended spec orders, and such as are switched on as if they were rules. */
export function leftOutProblems(source: YamlSource, inherited: readonly string[]): PlacedProblem[] {
  return entriesOf(source).flatMap(([name, settings]) => {
    if (typeof settings !== 'boolean' || (settings === false && inherited.includes(name))) return []
    const message = settings
      ? `deliverables.${name} is true; write its settings below it, or nothing where the general ones apply.`
      : `deliverables.${name} is false, which leaves out a deliverable of the spec that this one extends; ${inherited.length === 0 ? 'it orders none' : `that orders ${inherited.join(', ')}`}. Remove the line.`
    return [source.problem(['deliverables', name], 'value', message)]
  })
}

function entriesOf(source: YamlSource): [string, unknown][] {
  const orders = source.valueAt(['deliverables'])
  return typeof orders === 'object' && orders !== null && !Array.isArray(orders) ? Object.entries(orders) : []
}
