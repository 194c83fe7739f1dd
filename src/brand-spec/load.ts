import type { SourceText } from '../files/source-text.ts'
import type { NamingPattern } from '../naming/naming.ts'
import type { AnyRule } from '../rules/contract/delivery-rule.ts'
import type { PlacedProblem } from '../text/placed-problem.ts'
import { impossibleSettings, readMasters, readNaming, twinDeliverables, unfitTemplates } from './content.ts'
import { fitsNaming } from './fits-naming.ts'
import { deepFreeze } from './freeze.ts'
import { type Layer, readLayer } from './layer.ts'
import { leftOutProblems, mergedSpec, orderedNames } from './merge-layers.ts'
import { soundness, tidied, withoutFollowUps } from './problems.ts'
import type { Spec } from './spec.ts'
import type { WrittenSpec } from './written-spec.ts'

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
  const naming = namingOf(layers)
  const masters = mastersOf(layers, naming.pattern)
  const problems = layers.flatMap((layer, index) => {
    const own = problemsOf(layer, layers.slice(index + 1))
    const ofPatterns = [naming, masters].flatMap((one) => (one.at === layer ? one.problems : []))
    return placedIn(layer.file, file, tidied([...own, ...ofPatterns]))
  })
  if (problems.length > 0) return { problems }
  const data = layers.flatMap((layer) => layer.data ?? [])
  return { spec: specOf(data, layers, { naming: naming.pattern, masters: masters.pattern }, rules) }
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
    ...unfitTemplates(place),
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
function namingOf(layers: readonly Layer[]) {
  const at = layers.find(({ source }) => source.valueAt(['naming']) !== undefined) ?? null
  const written = at?.source.valueAt(['naming'])
  const read = at && fitsNaming(written) ? readNaming(written, at.place, orderedNames(layers)) : null
  if (read && 'problems' in read) return { at, pattern: null, problems: read.problems }
  return { at, pattern: read?.pattern ?? null, problems: [] }
}

/** The pattern of the masters' names in force and the layer that has it. */
function mastersOf(layers: readonly Layer[], naming: NamingPattern | null) {
  const written = (layer: Layer) => layer.source.valueAt(['masters', 'naming'])
  const at = layers.find((layer) => written(layer) !== undefined) ?? null
  const text = at && written(at)
  const read =
    at && typeof text === 'string' ? readMasters(text, naming, at.place, orderedNames(layers)) : null
  if (read && 'problems' in read) return { at, pattern: null, problems: read.problems }
  return { at, pattern: read?.pattern ?? null, problems: [] }
}

function specOf(
  data: readonly WrittenSpec[],
  layers: readonly Layer[],
  patterns: Pick<Spec, 'naming' | 'masters'>,
  rules: readonly AnyRule[],
): Spec {
  const {
    brand,
    version,
    deliverables = {},
    waivers,
    prepare = {},
    consent,
    advisory = [],
    ...rest
  } = mergedSpec(data)
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
    ...patterns,
    settings: bare(settings),
    deliverables: bare(
      Object.entries(deliverables).map(([name, own]) => [name, bare(Object.entries(own || {}))]),
    ),
    waivers: waivers ?? null,
    prepare: { ...prepare },
    consent: consent ?? null,
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
