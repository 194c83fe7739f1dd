import { within } from '../../imaging/interpolate.ts'
import { upperMedian } from '../../numbers/quantile.ts'
import { CANVASES, type Turned } from './canvas.ts'
import { type Evidence, NO_EVIDENCE, together } from './evidence.ts'
import { depthAt, type FillLine, rangeOf } from './fill-line.ts'
import type { SideStrip } from './side-strip.ts'

/** Positions that are read together, px. @choice enough for a mean over grain, and no more than a lapel is wide; no source */
const BIN = 16
/** How far beside the line nothing must mirror, px. @choice beyond the blur of an edge; no source */
const AWAY = 3
/** Variance that rounding and compression leave in smooth places, squared codes. @choice of a code and a half; what changes less tells nothing; no source */
const NOISE = 2
/** Most that one place tells, as a logarithm of the ratio of differences. @choice one strong edge must not decide alone; no source */
const MOST = 3
/** Least that one place tells, likewise. @choice chance makes no place worse than that often; no source */
const LEAST = -1
/** How far from the line, px, every px is read; beyond it every second, and beyond {@link LATER} every third. @choice grain needs the first ones, clothes don't; no source */
const SOON = 6
/** See {@link SOON}. @choice as there */
const LATER = 20
/** A place between two pixels lies at least so far inside of the last, px. @choice above rounding, below what is seen */
const BETWEEN = 0.001
/** Weight that keeps few places from standing out. @choice of nine of them; no source */
const FEW = 9

/** How closely it is looked: at every so many positions, so far to either side of the line, px. */
interface Care {
  readonly stride: number
  readonly reach: number
}

/** How all turns are looked at. @choice as little as leaves the right one among the candidates; no source */
const COARSE: Care = { stride: 8, reach: 6 }
/** How the candidates are. @choice clothes and shoulders mirror over tens of px, by chance they don't; no source */
const FINE: Care = { stride: 4, reach: 48 }
/** Tangents of the angles that are looked for, and their steps. @choice from 0.23 to 6.1 degrees, by a pixel at the ends of a side */
const SLOPES = { least: 2, most: 53, step: 0.002 }
/** Tangents that are tried around a candidate. @choice half of the steps in fours */
const CLOSER = [-0.001, -0.0005, 0, 0.0005, 0.001]
/** Turns that are looked at closely. @choice the right one is the best of all in most pictures; no source */
const CANDIDATES = 5
/** Tangents less apart are one turn seen twice. @choice three steps */
const APART = 0.006
/** Deviation that is added to that of all turns. @choice that of pictures without any detail; no source */
const CALM = 0.15
/** The same for the second best. @choice twice as much; no source */
const CALM_SECOND = 0.3
/**
 * How far a turn must stand out.
 * @tuned on the first set of straightened pictures of docs/validation.md: untouched pictures and tight crops reach 7.0
 */
const LEAST_STANDING_OUT = 7.1

interface Scored extends Turned {
  /** Evidence, share of its weight. */
  readonly share: number
  readonly score: number
}

/** The turn whose wedges mirror the picture; null when none stands out. */
export function findMirrored(
  strips: readonly SideStrip[],
  linesOf: (turned: Turned) => readonly FillLine[],
): Turned | null {
  const scored = (turned: Turned, care: Care): Scored => {
    let evidence = NO_EVIDENCE
    for (const [i, line] of linesOf(turned).entries())
      evidence = together(evidence, mirroredAlong(strips[i] as SideStrip, line, care))
    const weight = evidence.weight + FEW
    return { ...turned, share: evidence.found / weight, score: evidence.found / Math.sqrt(weight) }
  }
  const all: Scored[] = []
  for (const canvas of CANVASES)
    for (let k = -SLOPES.most; k <= SLOPES.most; k++)
      if (Math.abs(k) >= SLOPES.least) all.push(scored({ slope: k * SLOPES.step, canvas }, COARSE))
  const [best] = all
    .toSorted((p, q) => q.score - p.score)
    .slice(0, CANDIDATES)
    .flatMap(({ slope, canvas }) => CLOSER.map((by) => scored({ slope: slope + by, canvas }, FINE)))
    .toSorted((p, q) => q.score - p.score)
  if (!best || best.share < LEAST_SHARE) return null
  return standingOut(best, all) >= LEAST_STANDING_OUT ? best : null
}

/**
 * Least evidence of mirrored pixels, share of its weight.
 * @tuned on 5 drawn heads 66 % high whose hair and backdrop seemed mirrored, 0.28 at most, and on 6 mirrored pictures of the set, 0.67 and more
 */
const LEAST_SHARE = 0.45

/** How far the best stands out from all others, in their deviations, times how far from the second best. */
function standingOut(best: Scored, all: readonly Scored[]): number {
  const usual = upperMedian(Float32Array.from(all, ({ score }) => score))
  const others = all
    .filter(({ slope }) => Math.abs(slope - best.slope) > APART)
    .map(({ score }) => score - usual)
  const deviation = Math.sqrt(others.reduce((sum, by) => sum + by * by, 0) / others.length)
  const above = best.score - usual
  return ((above / (deviation + CALM)) * above) / (Math.max(...others) + CALM_SECOND)
}

/** Colors outside of the line are those at the same distance inside of it, and of no line beside it. */
function mirroredAlong(strip: SideStrip, line: FillLine, { stride, reach }: Care): Evidence {
  const { length, depth: rows } = strip
  const lastColumn = length - 1 - BETWEEN
  const lastRow = rows - 1 - BETWEEN
  const { from, to } = rangeOf(line, length)
  let found = 0
  let weight = 0
  for (let start = Math.ceil(from); start + BIN <= to; start += BIN) {
    const far = Math.min(reach, Math.floor(depthAt(line, start + BIN / 2)))
    if (far < 2) continue
    const step = 1 + Number(far > SOON) + Number(far > LATER)
    let here = 0
    let beside = 0
    let n = 0
    for (let t = start; t < start + BIN; t += stride) {
      const depth = depthAt(line, t + 0.5)
      const outerColumn = within(t, lastColumn)
      for (let a = 0.5; a < far; a += step) {
        if (depth + a < AWAY + 0.5) continue
        const column = within(t - 2 * a * line.slope, lastColumn)
        const outer = grayAt(strip, outerColumn, within(depth - a - 0.5, lastRow))
        const further = outer - grayAt(strip, column, within(depth + a + AWAY - 0.5, lastRow))
        const nearer = outer - grayAt(strip, column, within(depth + a - AWAY - 0.5, lastRow))
        const other = outer - grayAt(strip, column, within(depth + a - 0.5, lastRow))
        here += other * other
        beside += (further * further + nearer * nearer) / 2
        n++
      }
    }
    if (n === 0) continue
    const gain = Math.log((beside + n * NOISE) / (here + n * NOISE))
    found += Math.max(LEAST, Math.min(MOST, gain))
    weight++
  }
  return { found, weight }
}

/** Gray between pixels; their middles are at whole numbers. */
function grayAt({ gray, length }: SideStrip, x: number, y: number): number {
  const row = Math.floor(y)
  const column = Math.floor(x)
  const v = y - row
  const u = x - column
  const i = row * length + column
  const upper = (gray[i] as number) * (1 - u) + (gray[i + 1] as number) * u
  const lower = (gray[i + length] as number) * (1 - u) + (gray[i + length + 1] as number) * u
  return upper * (1 - v) + lower * v
}
