import { MEASURES, type Measure } from '../../tests/accuracy/compared.ts'
import type { MarkedReading } from '../../tests/accuracy/evaluate-marked.ts'

/** A group whose mean error is so many times that of all is pointed out. @choice what the measurements are held to. */
const UNLIKE = 1.3

/** Fewest members of a group that is pointed out. @choice common practice: the mean of fewer says little. */
const MEMBERS = 5

const WIDTHS = { name: 24, error: 12, figure: 9, what: 36 }

const ALL = Object.keys(MEASURES) as Measure[]

/** One error of a photograph, for figures over many. */
interface Known {
  readonly error: number
  readonly told: number
  readonly groups: readonly string[]
}

/** The errors photograph by photograph, then of all and how often the error told holds them, and by group. */
export function markedLines(readings: readonly MarkedReading[]): string[] {
  const known = (measure: Measure): Known[] =>
    readings.flatMap(({ compared, groups }) =>
      compared.filter((one) => one.measure === measure).map((one) => ({ ...one, groups })),
    )
  const sets = ALL.map((measure) => [MEASURES[measure], known(measure)] as const)
  return [
    row('photograph', ...ALL, 'groups; doubts'),
    ...readings.map(photographLine),
    '',
    'Measured less marked; turn and nod as if all looked ahead, where the marks say nothing else:',
    summaryRow('', 'n', 'bias', 'mean', '50 %', '90 %', '95 %', '99 %', 'largest', 'told', 'held'),
    ...sets.map(([what, of]) => summary(what, of)),
    '',
    'told: the error told, in the median; held: how many are within their own',
    ...sets.flatMap(([what, of]) => ['', `Mean error by group: ${what}`, ...groupLines(of)]),
  ]
}

function photographLine({ name, compared, groups, doubts }: MarkedReading): string {
  const errors = ALL.map((measure) => compared.find((one) => one.measure === measure)?.error ?? null)
  return row(
    name,
    ...errors.map(signed),
    [groups.join(', '), doubts.join(', ')].filter((text) => text !== '').join('; '),
  )
}

function summary(what: string, of: readonly Known[]): string {
  if (of.length === 0) return summaryRow(what, 'nothing was marked or measured')
  const errors = of.map(({ error }) => error)
  const sizes = errors.map(Math.abs)
  const held = of.filter(({ error, told }) => Math.abs(error) <= told).length
  return summaryRow(
    what,
    String(of.length),
    signed(mean(errors)),
    mean(sizes).toFixed(2),
    ...[0.5, 0.9, 0.95, 0.99, 1].map((share) => shareOf(sizes, share)),
    shareOf(
      of.map(({ told }) => told),
      0.5,
    ),
    `${held} of ${of.length}`,
  )
}

function groupLines(known: readonly Known[]): string[] {
  const sizes = (of: readonly Known[]) => of.map(({ error }) => Math.abs(error))
  const all = mean(sizes(known))
  return [...new Set(known.flatMap(({ groups }) => groups))].sort().map((group) => {
    const own = sizes(known.filter(({ groups }) => groups.includes(group)))
    const isUnlike = own.length >= MEMBERS && mean(own) > UNLIKE * all
    return `  ${group} (${own.length}): ${mean(own).toFixed(2)}${isUnlike ? `, over ${UNLIKE} times the mean of all` : ''}`
  })
}

function summaryRow(what: string, ...cells: string[]): string {
  return `${what.padEnd(WIDTHS.what)}${cells.map((cell) => cell.padEnd(WIDTHS.figure)).join('')}`.trimEnd()
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
