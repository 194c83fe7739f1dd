import type { MarkedReading } from '../../tests/accuracy/evaluate-marked.ts'

type Measure = 'eyeLine' | 'chin' | 'headHeight' | 'tiltDeg'

const MEASURES: readonly [Measure, string][] = [
  ['eyeLine', 'eye line, % of the frame height'],
  ['tiltDeg', 'tilt, degrees'],
  ['chin', 'chin, % of the frame height'],
  ['headHeight', 'head height, % of the frame height (from the crown as read, where none is marked)'],
]

/** A group whose mean error is so many times that of all is pointed out. @choice what the measurements are held to. */
const UNLIKE = 1.3

/** Fewest members of a group that is pointed out. @choice common practice: the mean of fewer says little. */
const MEMBERS = 5

const WIDTHS = { name: 28, error: 12 }

/** The errors photograph by photograph, then of all, how often the error told holds them, and the chin's by group. */
export function markedLines(readings: readonly MarkedReading[]): string[] {
  return [
    row('photograph', 'eye line', 'tilt', 'chin', 'head height', 'told', 'groups; doubts'),
    ...readings.map(({ name, eyeLine, tiltDeg, chin, headHeight, told, groups, doubts }) =>
      row(
        name,
        ...[eyeLine, tiltDeg, chin, headHeight].map(signed),
        told?.toFixed(2) ?? '',
        [groups.join(', '), doubts.join(', ')].filter((text) => text !== '').join('; '),
      ),
    ),
    '',
    ...MEASURES.map(([measure, what]) => summary(readings, measure, what)),
    toldLine(readings),
    '',
    "The chin's mean error by group:",
    ...groupLines(readings),
  ]
}

function summary(readings: readonly MarkedReading[], measure: Measure, what: string): string {
  const errors = readings.flatMap((one) => one[measure] ?? [])
  if (errors.length === 0) return `${what}: nothing was marked or measured`
  const sizes = errors.map(Math.abs)
  const shares = [0.5, 0.9, 0.95, 0.99].map((share) => `${100 * share} % ${shareOf(sizes, share)}`)
  return `${what} (${errors.length}): bias ${signed(mean(errors))}, mean ${mean(sizes).toFixed(2)}, ${shares.join(', ')}, largest ${shareOf(sizes, 1)}`
}

function toldLine(readings: readonly MarkedReading[]): string {
  const known = readings.flatMap(({ chin, told }) => (chin === null || told === null ? [] : [{ chin, told }]))
  const held = known.filter(({ chin, told }) => Math.abs(chin) <= told).length
  const told = known.map((one) => one.told)
  return `error told for the chin: ${shareOf(told, 0.5)} in the median, ${shareOf(told, 0.9)} at 90 %; it holds ${held} of ${known.length} marks`
}

function groupLines(readings: readonly MarkedReading[]): string[] {
  const known = readings.flatMap(({ chin, groups }) =>
    chin === null ? [] : [{ error: Math.abs(chin), groups }],
  )
  const all = mean(known.map(({ error }) => error))
  return [...new Set(known.flatMap(({ groups }) => groups))].sort().map((group) => {
    const errors = known.filter(({ groups }) => groups.includes(group)).map(({ error }) => error)
    const isUnlike = errors.length >= MEMBERS && mean(errors) > UNLIKE * all
    return `  ${group} (${errors.length}): ${mean(errors).toFixed(2)}${isUnlike ? `, over ${UNLIKE} times the mean of all` : ''}`
  })
}

function row(name: string, ...cells: string[]): string {
  return `${name.padEnd(WIDTHS.name)}${cells.map((cell) => cell.padEnd(WIDTHS.error)).join('')}`.trimEnd()
}

function signed(error: number | null): string {
  return error === null ? '' : `${error < 0 ? '-' : '+'}${Math.abs(error).toFixed(2)}`
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length
}

/** The least value that a share of all are within. */
function shareOf(values: readonly number[], share: number): string {
  return (values.toSorted((a, b) => a - b)[Math.ceil(share * values.length) - 1] ?? 0).toFixed(2)
}
