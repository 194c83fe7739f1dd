import { pathReader } from '../delivery/identify.ts'
import { parsePattern } from '../naming/naming.ts'
import { readPath } from '../naming/read-path.ts'
import { byCodePoint } from '../text/code-points.ts'
import { type NamePart, partsOf, shapeOf, splitPath } from './name-parts.ts'
import { areDeliverables, type KnownNames, Slots } from './name-slots.ts'

export interface InferredNaming {
  readonly pattern: string
  /** Constraints by field, as they stand in a spec. */
  readonly fields: Readonly<
    Record<string, { digits: number | { min: number; max: number } } | Record<string, never>>
  >
  /** Files whose names the pattern does not fit. */
  readonly others: readonly string[]
  /** Set when nothing tells which of two names is the family name. */
  readonly orderIsAGuess: boolean
}

/** Share of the names that a pattern needs. @choice a clear majority, no source: one that fewer follow is no rule. */
const SHARED = 0.6

/**
 * Infers the naming pattern that most paths follow: the folder where it tells the deliverable, what is the same in all
 * names, and the fields between. Null when there is none.
 * @param deliverableOf the deliverable of a path as found by size; null where it is not told
 */
export function inferNaming(
  paths: readonly string[],
  deliverableOf: (path: string) => string | null,
  known: KnownNames,
): InferredNaming | null {
  const read = paths.map((path) => {
    const { folder, stem, extension } = splitPath(path)
    return { path, folder, extension, parts: partsOf(stem) }
  })
  const shape = commonest(read.map(({ parts }) => shapeOf(parts)))
  const fitting = read.filter(({ parts }) => shapeOf(parts) === shape)
  const [first] = fitting
  if (!first || fitting.length < SHARED * paths.length) return null
  const deliverables = fitting.map(({ path }) => deliverableOf(path))
  const byFolder = areDeliverables(
    fitting.map(({ folder }) => folder),
    deliverables,
  )
  const slots = new Slots(known, byFolder ? null : deliverables)
  const pieces = joined(first.parts).map(({ from, to }) => {
    const values = fitting.map(({ parts }) => textOf(parts.slice(from, to)))
    const divider = first.parts[from]?.kind === 'divider'
    return divider ? (values[0] ?? '') : slots.piece(values)
  })
  const extension = commonest(fitting.map((one) => one.extension))
  const same = fitting.every((one) => one.extension.toLowerCase() === extension.toLowerCase())
  const name = `${pieces.join('')}${same ? extension : '.{ext}'}`
  if (Object.keys(slots.fields).length === 0) return null
  const pattern = `${byFolder ? '{deliverable}/' : ''}${name}`
  const fields = slots.declared()
  return {
    pattern,
    fields,
    others: unfit(paths, pattern, fields, [...new Set(deliverables.flatMap((one) => one ?? []))]),
    orderIsAGuess: slots.orderIsAGuess,
  }

  /** Letters and digits that stand beside each other are one field, unless the letters are the same in all names. */
  function joined(parts: readonly NamePart[]): { from: number; to: number }[] {
    const runs: { from: number; to: number }[] = []
    for (let from = 0; from < parts.length; ) {
      let to = from + 1
      if (parts[from]?.kind !== 'divider' && !constant(from)) {
        while (to < parts.length && parts[to]?.kind !== 'divider' && !constant(to)) to++
      }
      runs.push({ from, to })
      from = to
    }
    return runs
  }

  function constant(index: number): boolean {
    const value = first?.parts[index]?.text
    return fitting.length > 1 && fitting.every(({ parts }) => parts[index]?.text === value)
  }
}

/** The paths that the pattern does not read as a spec would: a double name of another shape than most may well fit it. */
function unfit(
  paths: readonly string[],
  pattern: string,
  fields: InferredNaming['fields'],
  deliverables: readonly string[],
): string[] {
  const parsed = parsePattern(pattern, fields, deliverables)
  if ('problems' in parsed)
    throw new Error(`The inferred pattern ${pattern} does not parse: ${parsed.problems[0]?.message ?? ''}`)
  const reader = pathReader(parsed.pattern, deliverables)
  const depth = parsed.pattern.segments.length
  return paths.filter((path) => {
    const names = path.normalize('NFC').split('/').slice(-depth)
    return names.length < depth || readPath(names, 0, reader).problems.length > 0
  })
}

function textOf(parts: readonly NamePart[]): string {
  return parts.map(({ text }) => text).join('')
}

function commonest(values: readonly string[]): string {
  const counts = new Map<string, number>()
  for (const value of values) counts.set(value, (counts.get(value) ?? 0) + 1)
  return [...counts].sort(([a, n], [b, m]) => m - n || byCodePoint(a, b))[0]?.[0] ?? ''
}
