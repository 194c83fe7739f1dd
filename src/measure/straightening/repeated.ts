import { CANVASES, type Turned } from './canvas.ts'
import { type Evidence, gathered, NO_EVIDENCE, together } from './evidence.ts'
import { depthAt, type FillLine, rangeOf } from './fill-line.ts'
import type { SideStrip } from './side-strip.ts'

/** Positions that are read together, px. @choice several pixels of grain make a mean, and a line of 6 degrees sinks by less than a pixel; no source. */
const BIN = 8
/** Share of the change inward in all change at which nothing is told: half of it in a picture, next to none where rows repeat. @choice midway, no source. */
const HALFWAY = 0.3
/** How far from there it is certain. @choice the rest of the way to half; no source. */
const CERTAIN = 0.2

/** How much colors change inward and along a side, as evidence that the outermost row is repeated. Sums over the depths. */
class RepeatedRows {
  readonly #length: number
  readonly #bins: number
  readonly #depth: number
  readonly #quiet: Float32Array
  readonly #weight: Float32Array

  constructor({ length, depth, gray }: SideStrip) {
    this.#length = length
    this.#bins = Math.floor((length - 1) / BIN)
    this.#depth = depth - 1
    this.#quiet = new Float32Array(this.#bins * depth)
    this.#weight = new Float32Array(this.#bins * depth)
    for (let d = 0; d < this.#depth; d++) {
      for (let bin = 0; bin < this.#bins; bin++) {
        let inward = 0
        let along = 0
        const first = d * length + bin * BIN
        for (let i = first; i < first + BIN; i++) {
          const here = gray[i] as number
          const down = (gray[i + length] as number) - here
          const next = (gray[i + 1] as number) - here
          inward += down * down
          along += next * next
        }
        const sum = inward + along
        const weight = sum / (sum + BIN * NOISE)
        const quiet = Math.max(-1, Math.min(1, (HALFWAY - inward / (sum + NOISE)) / CERTAIN))
        const at = (d + 1) * this.#bins + bin
        this.#quiet[at] = (this.#quiet[at - this.#bins] as number) + weight * quiet
        this.#weight[at] = (this.#weight[at - this.#bins] as number) + weight
      }
    }
  }

  /** Rows repeat outside of the line, and not as far again inside of it. */
  along(line: FillLine): Evidence {
    const { from, to } = rangeOf(line, this.#length)
    let evidence = NO_EVIDENCE
    for (let bin = Math.ceil(from / BIN); bin < Math.min(this.#bins, Math.floor(to / BIN)); bin++) {
      const m = Math.round(depthAt(line, (bin + 0.5) * BIN))
      if (m < 2) continue
      const outer = Math.min(this.#depth, m - 1)
      const [start, end] = [Math.min(this.#depth, m + 1), Math.min(this.#depth, 2 * m)]
      const inQ = this.#at(this.#quiet, outer, bin)
      const inW = this.#at(this.#weight, outer, bin)
      const outQ = this.#at(this.#quiet, end, bin) - this.#at(this.#quiet, start, bin)
      const outW = this.#at(this.#weight, end, bin) - this.#at(this.#weight, start, bin)
      evidence = gathered(evidence, inQ - outQ, inW + outW)
    }
    return evidence
  }

  #at(sums: Float32Array, depth: number, bin: number): number {
    return sums[depth * this.#bins + bin] as number
  }
}

/**
 * Least evidence, share of its weight.
 * @tuned on the first set of straightened pictures of docs/validation.md and on tight crops: 56 of 60 have 0.39 and more, untouched ones 0.37
 *   at most (strands of hair at all sides of the frame)
 */
const LEAST_SHARE = 0.38
/** Weight that the standard error is held against. @choice a few hundred px of changing color must be there; no source. */
const LEAST_WEIGHT = 100
/** Weight that a share is held against. @choice a few bins of changing color must be there; no source. */
const SOME = 20
/** Share of the weight from which on a side may not speak against the rest. @choice its part of four; no source. */
const PART = 0.25
/** Least evidence of such a side, share of its weight. @tuned on the same pictures and tight crops */
const LEAST_SIDE = 0.05

/** A picture is turned with all its sides: what looks repeated on the others is chance where one shows that nothing is. */
function speaksAgainst(side: Evidence, all: Evidence): boolean {
  return side.weight > PART * all.weight && side.found < LEAST_SIDE * side.weight
}

/** Least evidence in its standard errors. @tuned on the same set */
const LEAST_ERRORS = 5
/** Tangents of the angles that are looked for, and their steps. @choice from 0.23 to 6.1 degrees, by less than a pixel at the ends of a side */
const SLOPES = { least: 4, most: 106, step: 0.001 }

/** The turn whose wedges hold repeated rows; null when there is none. */
export function findRepeated(
  strips: readonly SideStrip[],
  linesOf: (turned: Turned) => readonly FillLine[],
): Turned | null {
  const rows = strips.map((strip) => new RepeatedRows(strip))
  let best: Turned | null = null
  let most = LEAST_ERRORS
  for (const canvas of CANVASES) {
    for (let k = -SLOPES.most; k <= SLOPES.most; k++) {
      if (Math.abs(k) < SLOPES.least) continue
      const turned = { slope: k * SLOPES.step, canvas }
      const sides = linesOf(turned).map((line, i) => (rows[i] as RepeatedRows).along(line))
      const evidence = sides.reduce(together, NO_EVIDENCE)
      if (sides.some((side) => speaksAgainst(side, evidence))) continue
      const errors = evidence.found / Math.sqrt(evidence.weight + LEAST_WEIGHT)
      if (evidence.found < LEAST_SHARE * (evidence.weight + SOME) || errors <= most) continue
      most = errors
      best = turned
    }
  }
  return best
}

/** Variance that rounding and compression leave in smooth places, squared codes. @choice of a code or so; what changes less tells nothing; no source. */
const NOISE = 0.6
