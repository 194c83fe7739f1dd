import { commonLine, countEnding, runsWithin } from '../../kernels/strips/fills.ts'
import { codesOf } from '../../kernels/strips/sides.ts'
import { upperMedian } from '../../numbers/quantile.ts'
import { depthAt, type FillLine, rangeOf } from './fill-line.ts'
import type { SideStrip } from './side-strip.ts'

/**
 * Differences from the color of the corner up to which a pixel is fill, codes, one after the other.
 * @choice from what a lossless white beside a backdrop that is nearly white asks to the ringing of JPEG beside black; no source
 */
const TOLERANCES = [1, 2, 4, 8, 16, 32]
/** Steps of the tangent of the angle. @choice a px at either end of a side of 1000 px, and the line is fitted afterward */
const SLOPE_STEP = 0.002
/** At every so many positions runs vote, first for every second step and then for those beside the best. @choice more only cost time */
const STRIDE = { first: 8, second: 4 } as const
/** The steps of the largest tangent. @choice 7 degrees: who turns a portrait by more means to */
const MOST_STEPS = 62
/** Those that are looked at first. @choice every second one */
const FIRST_STEPS = Array.from({ length: MOST_STEPS / 2 + 1 }, (_, k) => 2 * k)
/** Those around the best of them. @choice the ones between, and as far again */
const BESIDE = [-2, -1, 0, 1, 2]
/** Least depth of a wedge at its deepest, px at working size. @choice a row and the blur of the next; no source */
const LEAST_DEPTH = 1.2
/** Least length, share of the side. @choice a turned picture of any shape leaves at least half; no source */
const LEAST_LENGTH = 0.2
/** Px along the side from which its color is read. @choice the short leg of a shallow wedge at the next corner takes few of them; no source */
const CORNER = 12
/** How far from the line a run of fill may end and be on it, px. @choice a pixel and the blur of half another */
const NEAR = 1.25
/** Share of the runs that must end on the line. @tuned on the first set of straightened pictures of docs/validation.md */
const SAME = 0.75
/** Largest difference outside of the line, times that inside of it. @tuned on the same set: light that falls off has no edge */
const SHARP = 0.25
/** Least difference inside of the line, codes. @choice what is less is not seen; no source */
const LEAST_STEP = 1.5
/** Px beside the line that its blur takes. @choice as for {@link NEAR} */
const CLEAR = 1.5
/** How far outside of the line colors are read, px. @choice as far as JPEG rings most; no source */
const WITHIN = 6
/** Largest mean difference there, codes. @tuned on the same set: slats of a blind differ by more */
const MOST_INSIDE = 4
/** How far inside of it, px. @choice enough for a mean over grain; no source */
const BEYOND = 3
/** Fewest positions that are read. @choice fewer make no line; no source */
const LEAST_READ = 20

/** A wedge or strip of one color along a side. */
export interface FlatFill extends FillLine {
  /** sRGB codes. */
  readonly color: readonly [number, number, number]
  /** Share of the positions at which the fill ends on the line. */
  readonly share: number
}

/** The fill that begins at either end of a side, is of one color and ends sharply on a straight line; null when there is none. */
export function flatFill(strip: SideStrip): FlatFill | null {
  let best: FlatFill | null = null
  for (const atEnd of [false, true]) {
    const color = cornerColor(strip, atEnd)
    for (const runs of runsWithin(strip, color, TOLERANCES)) {
      const ending = mostlyEnding(runs, strip, atEnd)
      const line = ending && fitted(ending, runs, strip)
      if (!line) continue
      const checked = check(line, runs, differenceFrom(strip, color), strip)
      if (checked && (!best || checked.share > best.share)) best = { ...line, color, ...checked }
    }
  }
  return best
}

/** Median color of the outermost pixels at one end of the side. */
function cornerColor(strip: SideStrip, atEnd: boolean): [number, number, number] {
  const from = atEnd ? strip.length - CORNER : 0
  const of = (plane: Uint8Array) => upperMedian(Float32Array.from(plane.subarray(from, from + CORNER)))
  const [reds, greens, blues] = codesOf(strip)
  return [of(reds), of(greens), of(blues)]
}

/** The largest difference of a pixel's red, green and blue from a color, codes. */
type Difference = (index: number) => number

function differenceFrom(strip: SideStrip, [r, g, b]: FlatFill['color']): Difference {
  const [reds, greens, blues] = codesOf(strip)
  return (i) => {
    const red = Math.abs((reds[i] as number) - r)
    const green = Math.abs((greens[i] as number) - g)
    const blue = Math.abs((blues[i] as number) - b)
    return Math.max(red, green, blue)
  }
}

/** The line on which most runs end. */
function mostlyEnding(runs: Uint8Array, { length, depth }: SideStrip, atEnd: boolean): FillLine | null {
  if (countEnding(runs, depth) < LEAST_LENGTH * length * SAME) return null
  const sign = atEnd ? 1 : -1
  const origin = atEnd ? length : 0
  const voted = (steps: readonly number[], stride: number) => {
    const slopes = Float64Array.from(steps, (step) => sign * step * SLOPE_STEP)
    return commonLine(runs, depth, slopes, { origin, stride })
  }
  const first = voted(FIRST_STEPS, STRIDE.first)
  if (!first) return null
  const near = BESIDE.map((by) => Math.round((sign * first.slope) / SLOPE_STEP) + by)
  return voted(
    near.filter((step) => step >= 0),
    STRIDE.second,
  )
}

/** The least squares line through the runs that end near a line. */
function fitted(line: FillLine, runs: Uint8Array, { length }: SideStrip): FillLine {
  const { from, to } = rangeOf(line, length)
  let [n, st, sm, stt, stm] = [0, 0, 0, 0, 0]
  for (let t = Math.ceil(from); t < to; t++) {
    const run = runs[t] as number
    if (Math.abs(run - depthAt(line, t + 0.5)) > 2 * NEAR || depthAt(line, t + 0.5) < 1) continue
    n++
    st += t + 0.5
    sm += run
    stt += (t + 0.5) ** 2
    stm += (t + 0.5) * run
  }
  const spread = n * stt - st * st
  if (spread === 0 || line.slope === 0) return line
  const slope = (n * stm - st * sm) / spread
  return Math.sign(slope) === Math.sign(line.slope) ? { start: (sm - slope * st) / n, slope } : line
}

/** How well a line bounds a fill; null when it bounds none. */
function check(
  line: FillLine,
  runs: Uint8Array,
  difference: Difference,
  { length, depth }: SideStrip,
): { share: number } | null {
  const { from, to } = rangeOf(line, length)
  const deepest = Math.max(depthAt(line, 0), depthAt(line, length))
  if (to - from < LEAST_LENGTH * length || deepest < LEAST_DEPTH || deepest > depth - BEYOND - CLEAR)
    return null
  const first = Math.ceil(from)
  let [n, near] = [0, 0]
  for (let t = first; t < Math.floor(to); t += 2) {
    const m = depthAt(line, t + 0.5)
    if (m < 1) continue
    n++
    if (Math.abs((runs[t] as number) - m) <= NEAR) near++
  }
  const share = near / n
  if (n < LEAST_READ || share < SAME) return null
  let [deep, sharp, steps, inside] = [0, 0, 0, 0]
  for (let t = first; t < Math.floor(to); t += 2) {
    const m = depthAt(line, t + 0.5)
    if (m < 1) continue
    const beyond = meanOf(difference, length, t, m + CLEAR, m + CLEAR + BEYOND)
    const within = meanOf(difference, length, t, Math.max(0, m - WITHIN), Math.max(1, m - CLEAR))
    steps += beyond
    inside += within
    if (m < CLEAR + 1) continue
    deep++
    if (within <= SHARP * beyond) sharp++
  }
  const isSharp = sharp >= SAME * deep && inside <= Math.min(SHARP * steps, MOST_INSIDE * n)
  return isSharp && steps >= LEAST_STEP * n ? { share } : null
}

function meanOf(difference: Difference, length: number, t: number, from: number, to: number): number {
  let [n, sum] = [0, 0]
  for (let d = Math.round(from); d < Math.round(to); d++) {
    sum += difference(d * length + t)
    n++
  }
  return n === 0 ? 0 : sum / n
}
