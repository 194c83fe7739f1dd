import type { Rect } from '../../src/framing/room.ts'
import type { Asked, Place } from './cases.ts'

// Every crop of a small frame is tried, with the formulas of the rules' definitions and none of the solver's code.

interface Range {
  readonly min?: number
  readonly max?: number
  readonly target?: number
  readonly tolerance?: number
}
interface Span {
  readonly from: number
  readonly size: number
}

/** The largest area in px of a crop that meets everything asked; 0 when there is none. */
export function largestArea(place: Place, asked: Asked, intrusions: readonly Rect[]): number {
  const down = spans(place.height).filter((span) => fitsDown(span, place, asked))
  const across = spans(place.width).filter((span) => fitsAcross(span, place, asked))
  const outputs = outputsFor(place, asked)
  let best = 0
  for (const rows of intrusions.length > 0 ? down : distinctSizes(down)) {
    for (const columns of intrusions.length > 0 ? across : distinctSizes(across)) {
      if (rows.size * columns.size <= best) continue
      if (!fitsShape(columns.size, rows.size, asked, outputs)) continue
      if (intrusions.some((each) => overlaps(columns, rows, each))) continue
      best = rows.size * columns.size
    }
  }
  return best
}

function spans(length: number): Span[] {
  const all: Span[] = []
  for (let from = 0; from < length; from++)
    for (let size = 1; from + size <= length; size++) all.push({ from, size })
  return all
}

function distinctSizes(all: readonly Span[]): Span[] {
  return [...new Map(all.map((span) => [span.size, span])).values()]
}

function fitsDown({ from, size }: Span, { crown, chin, eyeY }: Place, asked: Asked): boolean {
  const inside = (y: number) => y >= from && y <= from + size
  const headroom = asked.headroom as Range | undefined
  const cuts = headroom && (lowOf(headroom) < 0 || highOf(headroom) < 0) && lowOf(headroom) !== -Infinity
  return (
    within((100 * (crown - from)) / size, headroom) &&
    within((100 * (eyeY - from)) / size, asked['eye-line'] as Range | undefined) &&
    within((100 * (chin - crown)) / size, asked['head-height'] as Range | undefined) &&
    (cuts === true || (headroom && highOf(headroom) < 0) || inside(crown)) &&
    inside(chin) &&
    inside(eyeY)
  )
}

function fitsAcross({ from, size }: Span, { eyeX, faceWidth, width }: Place, asked: Asked): boolean {
  const asksCentering = asked.centering as Range | undefined
  const centering =
    asksCentering?.target === undefined && asksCentering?.max !== undefined
      ? { min: -asksCentering.max, max: asksCentering.max }
      : asksCentering
  const faceLeft = Math.max(0, eyeX - faceWidth / 2)
  const faceRight = Math.min(width, eyeX + faceWidth / 2)
  return (
    within(100 * ((eyeX - from) / size - 0.5), centering) &&
    faceLeft >= from - 1e-9 &&
    faceRight <= from + size + 1e-9
  )
}

function within(value: number, range: Range | undefined): boolean {
  return !range || (value >= lowOf(range) - 1e-9 && value <= highOf(range) + 1e-9)
}
function lowOf({ min, target, tolerance = 0 }: Range): number {
  return target === undefined ? (min ?? -Infinity) : target - tolerance
}
function highOf({ max, target, tolerance = 0 }: Range): number {
  return target === undefined ? (max ?? Infinity) : target + tolerance
}

type Output = readonly [width: number, height: number]

/** Every size up to the frame's that `pixel-size` and `aspect-ratio` allow; null when no pixel size is asked. */
export function outputsFor(
  { width, height }: Pick<Place, 'width' | 'height'>,
  asked: Asked,
): Output[] | null {
  const size = asked['pixel-size'] as Record<string, number | Range> | undefined
  if (!size) return null
  const ranges = Object.entries(size).map(([edge, length]) => {
    return [edge, typeof length === 'number' ? { min: length, max: length } : length] as const
  })
  const found: Output[] = []
  for (let w = 1; w <= width; w++) {
    for (let h = 1; h <= height; h++) {
      const edges: Record<string, number> = {
        width: w,
        height: h,
        'long-edge': Math.max(w, h),
        'short-edge': Math.min(w, h),
      }
      if (!ranges.every(([edge, range]) => within(edges[edge] ?? 0, range))) continue
      if (withinPixel(w, h, asked['aspect-ratio'] as string | undefined)) found.push([w, h])
    }
  }
  return found
}

export function fitsShape(w: number, h: number, asked: Asked, outputs: readonly Output[] | null): boolean {
  const ratio = asked['aspect-ratio'] as string | undefined
  if (!withinPixel(w, h, ratio)) return false
  if (!outputs) return true
  return outputs.some(([a, b]) => a <= w && b <= h && (ratio !== undefined || withinPixel(w, h, `${a}:${b}`)))
}

/** Width or height is off the ratio by at most 1 px. */
function withinPixel(w: number, h: number, ratio: string | undefined): boolean {
  if (!ratio) return true
  const [wide = 1, high = 1] = ratio.split(':').map(Number)
  return Math.abs(w - (h * wide) / high) <= 1 + 1e-9 || Math.abs(h - (w * high) / wide) <= 1 + 1e-9
}

function overlaps(columns: Span, rows: Span, { left, top, right, bottom }: Rect): boolean {
  return (
    columns.from < right &&
    columns.from + columns.size > left &&
    rows.from < bottom &&
    rows.from + rows.size > top
  )
}
