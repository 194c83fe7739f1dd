import { mirrorSums } from '../../kernels/strips.ts'
import { upperMedian } from '../../numbers/quantile.ts'
import { CANVASES, type Turned } from './canvas.ts'
import { type Evidence, NO_EVIDENCE, together } from './evidence.ts'
import { type FillLine, rangeOf } from './fill-line.ts'
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
  const scored = (turns: readonly Turned[], care: Care): Scored[] => {
    const lines = turns.map(linesOf)
    const sides = strips.map((strip, i) =>
      mirroredAlong(
        strip,
        lines.map((sides) => sides[i] as FillLine),
        care,
      ),
    )
    return turns.map((turned, k) => {
      const evidence = sides.map((side) => side[k] as Evidence).reduce(together, NO_EVIDENCE)
      const weight = evidence.weight + FEW
      return { ...turned, share: evidence.found / weight, score: evidence.found / Math.sqrt(weight) }
    })
  }
  const turns: Turned[] = []
  for (const canvas of CANVASES)
    for (let k = -SLOPES.most; k <= SLOPES.most; k++)
      if (Math.abs(k) >= SLOPES.least) turns.push({ slope: k * SLOPES.step, canvas })
  const all = scored(turns, COARSE)
  const candidates = all.toSorted((p, q) => q.score - p.score).slice(0, CANDIDATES)
  const closer = candidates.flatMap(({ slope, canvas }) =>
    CLOSER.map((by) => ({ slope: slope + by, canvas })),
  )
  const [best] = scored(closer, FINE).toSorted((p, q) => q.score - p.score)
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

/** Evidence along some lines of one side: colors outside of a line are those at the same distance inside of it, and of no line beside it. */
function mirroredAlong(strip: SideStrip, lines: readonly FillLine[], care: Care): Evidence[] {
  const looked = lines.map((line) => {
    const { from, to } = rangeOf(line, strip.length)
    const first = Math.ceil(from)
    return { ...line, first, bins: Math.max(0, Math.floor((to - first) / BIN)) }
  })
  return mirrorSums(strip, looked, { ...care, size: BIN, away: AWAY, soon: SOON, later: LATER }).map(
    (sums) => {
      let found = 0
      let weight = 0
      for (let k = 0; k < sums.length; k += 3) {
        const [mirrored, beside, places] = [sums[k] as number, sums[k + 1] as number, sums[k + 2] as number]
        if (places === 0) continue
        const gain = Math.log((beside + places * NOISE) / (mirrored + places * NOISE))
        found += Math.max(LEAST, Math.min(MOST, gain))
        weight++
      }
      return { found, weight }
    },
  )
}
