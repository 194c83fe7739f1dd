import type { Figure } from '../../rules/contract/outcome.ts'
import { byCodePoint } from '../../text/code-points.ts'
import { quantity } from '../../text/quantity.ts'
import { sideBySide } from '../columns.ts'
import { html, type Markup } from './markup.ts'
import { type Axis, axisOver, stacked } from './plot-scale.ts'
import type { Portrait } from './portrait.ts'
import { outcomeStanding, type Standing } from './standing.ts'

interface PlotPoint {
  readonly portrait: Portrait
  readonly figure: Figure
  readonly standing: Standing
  readonly measured: string
}

interface Row {
  readonly deliverable: string
  /** What stands above it: the deliverable and what is asked, in lines. */
  readonly name: readonly string[]
  readonly points: readonly PlotPoint[]
}

const SPOKEN: Readonly<Record<Standing, string>> = {
  fail: 'fails',
  unsure: 'unsure',
  warning: 'a warning or an exception',
  pass: 'passes',
}

const WIDTH = 300
const MARGIN = 12
const [NAME_TOP, NAME_LINE] = [4, 12]
/** Letters of a line above a row. @choice what 11 px leave room for in 276 px, in the widest of usual typefaces. */
const NAME_LETTERS = 48
const ROW_HEIGHT = 64
const AXIS_HEIGHT = 20
// Smaller where there are many.
const radiusOf = (points: number) => (points > 40 ? 2.5 : 4)

/** How each measured number is spread over the set, against what is asked; a point a portrait, leading to its card. */
export function plots(portraits: readonly Portrait[], rules: readonly string[]): Markup | null {
  const drawn = rules.flatMap((rule) => {
    const rows = rowsOf(rule, portraits)
    return rows.length > 0 ? [plot(rule, rows)] : []
  })
  if (drawn.length === 0) return null
  return html`<section class="spread" aria-labelledby="spread"><h2 id="spread">Spread of the measurements</h2>
<p class="small">The shaded range is what the spec asks for. Each point links to its portrait; its shape is the verdict: dot, pass; cross, fail; ring, unsure; triangle, warning or exception.</p>
<div class="plots">${drawn}</div></section>
`
}

function rowsOf(rule: string, portraits: readonly Portrait[]): Row[] {
  const rows = new Map<string, PlotPoint[]>()
  const asked = new Map<string, string>()
  for (const portrait of portraits) {
    const outcome = portrait.file.outcomes.find((one) => one.rule === rule)
    if (!outcome?.figure) continue
    const ruled = outcomeStanding(outcome)
    if (ruled === 'skip') continue
    const standing = ruled === 'waived' || ruled === 'known' ? 'warning' : ruled
    const key = portrait.file.deliverable ?? ''
    asked.set(key, outcome.expected ?? '')
    const point = { portrait, figure: outcome.figure, standing, measured: outcome.measured ?? '' }
    rows.set(key, [...(rows.get(key) ?? []), point])
  }
  return [...rows]
    .sort(([a], [b]) => byCodePoint(a, b))
    .map(([deliverable, points]) => ({
      deliverable,
      points,
      name: nameOf(deliverable, asked.get(deliverable)),
    }))
}

function nameOf(deliverable: string, asked = ''): string[] {
  const text = [deliverable, asked && `asked for ${asked}`].filter(Boolean).join(': ')
  return sideBySide(0, 0, [{ text, width: NAME_LETTERS }])
}

function heightOf({ name }: Row): number {
  return NAME_TOP + NAME_LINE * name.length + ROW_HEIGHT
}

function plot(rule: string, rows: readonly Row[]): Markup {
  const figures = rows.flatMap(({ points }) => points.map(({ figure }) => figure))
  const axis = axisOver(figures, MARGIN, WIDTH - MARGIN)
  const tops = rows.map((_, i) => rows.slice(0, i).reduce((sum, row) => sum + heightOf(row), 0))
  const height = rows.reduce((sum, row) => sum + heightOf(row), AXIS_HEIGHT)
  const points = rows.reduce((sum, row) => sum + row.points.length, 0)
  return html`<figure class="plot" aria-label="Spread of ${rule}: ${points} portraits"><figcaption>${rule}</figcaption><svg viewBox="0 0 ${WIDTH} ${height}">${rows.map((row, i) => rowMarkup(row, axis, tops[i] ?? 0))}${axis.ticks.map((tick) => tickMarkup(tick, axis, height))}</svg></figure>`
}

function rowMarkup(row: Row, axis: Axis, top: number): Markup {
  const { name, points } = row
  const floor = top + heightOf(row)
  const first = points[0]?.figure
  const from = axis.at(first?.min ?? Number.NEGATIVE_INFINITY)
  const to = axis.at(first?.max ?? Number.POSITIVE_INFINITY)
  const radius = radiusOf(points.length)
  const places = stacked(
    points.map(({ figure }) => axis.at(figure.value)),
    radius,
    ROW_HEIGHT - 2 * radius - 4,
  )
  return html`${name.map((line, i) => html`<text x="${MARGIN}" y="${top + 11 + i * NAME_LINE}">${line}</text>`)}<rect class="asked" x="${from}" y="${floor - ROW_HEIGHT}" width="${Math.max(1, to - from)}" height="${ROW_HEIGHT}"/><path class="axis" d="M${MARGIN} ${floor}H${WIDTH - MARGIN}"/>${points.map((point, i) => pointMarkup(point, places[i], floor - radius - 2, radius))}`
}

function pointMarkup(
  point: PlotPoint,
  place: { x: number; up: number } | undefined,
  floor: number,
  radius: number,
): Markup {
  if (!place) return html``
  const { portrait, standing, measured } = point
  const label = `${portrait.file.file}: ${measured}, ${SPOKEN[standing]}`
  // The cards are the way for the keyboard; hundreds of stops on the way to them would be none.
  return html`<a href="${portrait.href}" data-for="${portrait.id}" tabindex="-1" aria-label="${label}"><path class="point ${standing}" d="${shapeAt(standing, place.x, floor - place.up, radius)}"/><title>${label}</title></a>`
}

function shapeAt(standing: Standing, centerX: number, centerY: number, r: number): string {
  const [x, y] = [round(centerX), round(centerY)]
  switch (standing) {
    case 'fail':
      return `M${round(x - r)} ${round(y - r)}l${2 * r} ${2 * r}m0-${2 * r}l-${2 * r} ${2 * r}`
    case 'warning':
      return `M${x} ${round(y - r)}l${r} ${2 * r}h-${2 * r}z`
    default:
      return `M${round(x - r)} ${y}a${r} ${r} 0 1 0 ${2 * r} 0a${r} ${r} 0 1 0-${2 * r} 0z`
  }
}

function tickMarkup(tick: number, axis: Axis, height: number): Markup {
  return html`<text class="tick" x="${axis.at(tick)}" y="${height - 6}" text-anchor="middle">${quantity(tick, '')}</text>`
}

function round(value: number): number {
  return Math.round(value * 10) / 10
}
