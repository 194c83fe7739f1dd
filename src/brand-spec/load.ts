import type { SourceText } from '../files/source-text.ts'
import type { NamingPattern } from '../naming/naming.ts'
import type { AnyRule } from '../rules/contract/delivery-rule.ts'
import type { PlacedProblem } from '../text/placed-problem.ts'
import { impossibleSettings, readNaming, twinDeliverables } from './content.ts'
import { deepFreeze } from './freeze.ts'
import { type Layer, readLayer } from './layer.ts'
import { leftOutProblems, mergedSpec, orderedNames } from './merge-layers.ts'
import { soundness, tidied, withoutFollowUps } from './problems.ts'
import type { Spec } from './spec.ts'
import { validatorOf, type WrittenSpec } from './validator.ts'

/**
 * Reads a brand spec. All that is wrong with it, and with what it extends, is told at once, each cause once, by line.
 *
 * @param text YAML 1.2
 * @param file path of the spec as the user gave it, for messages
 * @param rules every rule that the spec may set
 * @param extended the spec that it extends, the one which that extends, and so on
 */
export function loadSpec(
  text: string,
  file: string,
  rules: readonly AnyRule[],
  extended: readonly SourceText[] = [],
): { spec: Spec } | { problems: PlacedProblem[] } {
  const layers: Layer[] = []
  for (const source of [{ file, text }, ...extended]) {
    const layer = readLayer(source, rules)
    if (!('source' in layer)) return { problems: placedIn(source.file, file, layer.problems) }
    layers.push(layer)
    if (layer.source.valueAt(['extends']) === undefined) break
  }
  const naming = namingOf(layers, rules)
  const problems = layers.flatMap((layer, index) => {
    const own = problemsOf(layer, layers.slice(index + 1))
    return placedIn(layer.file, file, tidied([...own, ...(naming.at === layer ? naming.problems : [])]))
  })
  if (problems.length > 0) return { problems }
  const data = layers.flatMap((layer) => layer.data ?? [])
  return { spec: specOf(data, layers, naming.pattern, rules) }
}

/** Names the file of problems that are not in the spec itself. */
function placedIn(file: string, spec: string, problems: readonly PlacedProblem[]): PlacedProblem[] {
  return file === spec ? [...problems] : problems.map((problem) => ({ ...problem, file }))
}

function problemsOf({ source, place, data, unfit, problems }: Layer, below: readonly Layer[]) {
  const inherited = orderedNames(below)
  const unread = data?.extends !== undefined && below.length === 0
  const all = [
    ...problems,
    ...withoutFollowUps(unfit).map((one) => source.problem(one.place.path, one.at, one.message)),
    ...impossibleSettings(place, soundness(unfit)),
    ...twinDeliverables(place, inherited),
    ...leftOutProblems(source, inherited),
    ...(unread ? [source.problem(['extends'], 'value', 'The spec that is named here was not read.')] : []),
  ]
  // Only a schema that no sentence has been written for leads here.
  if (all.length === 0 && data === null)
    return [source.problem([], 'value', 'The spec does not fit its schema.')]
  return all
}

/** The naming pattern in force and the layer that has it. */
function namingOf(layers: readonly Layer[], rules: readonly AnyRule[]) {
  const { isNaming } = validatorOf(rules)
  const at = layers.find(({ source }) => source.valueAt(['naming']) !== undefined) ?? null
  const written = at?.source.valueAt(['naming'])
  const read = at && isNaming(written) ? readNaming(written, at.place, orderedNames(layers)) : null
  if (read && 'problems' in read) return { at, pattern: null, problems: read.problems }
  return { at, pattern: read?.pattern ?? null, problems: [] }
}

function specOf(
  data: readonly WrittenSpec[],
  layers: readonly Layer[],
  naming: NamingPattern | null,
  rules: readonly AnyRule[],
): Spec {
  const { brand, version, deliverables = {}, waivers, advisory = [], ...rest } = mergedSpec(data)
  const ids = new Set(rules.map(({ id }) => id))
  const settings = Object.entries(rest).filter(([key]) => ids.has(key))
  const fileOf = (index: number) => layers[index]?.file ?? ''
  const namedIn = (key: string) =>
    fileOf(
      Math.max(
        0,
        data.findIndex((one) => one[key] !== undefined),
      ),
    )
  return deepFreeze({
    file: fileOf(0),
    brand,
    version,
    extended: data.slice(1).map((one, index) => ({ file: fileOf(index + 1), version: one.version })),
    naming,
    settings: bare(settings),
    deliverables: bare(
      Object.entries(deliverables).map(([name, own]) => [name, bare(Object.entries(own || {}))]),
    ),
    waivers: waivers ?? null,
    namedIn: { roster: namedIn('roster'), waivers: namedIn('waivers') },
    advisory: [...advisory],
  })
}

/** A record without a prototype: a deliverable may be called "constructor". */
function bare<T>(entries: readonly (readonly [string, T])[]): Readonly<Record<string, T>> {
  const record: Record<string, T> = Object.create(null)
  for (const [key, value] of entries) record[key] = value
  return record
}
