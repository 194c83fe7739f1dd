import type { TurnLook } from '../../kernels/strips/turns.ts'
import { CANVASES, type Canvas, type Turned } from './canvas.ts'

/** How deep thin wedges are at their deepest, px. @choice deeper ones are seen in a copy, too */
export const THIN_DEEPEST_PX = 24
/** Smallest and largest tangent of thin wedges. @choice 3 px in a picture of 1000 whose canvas grew; 1.1 degrees: larger ones are found in the copy */
const THIN_SLOPES = { least: 0.003, most: 0.02 }
/** Largest tangent that is looked for. @choice 6.1 degrees: who turns a portrait by more means to */
const MOST_SLOPE = 0.106

/** The largest tangent of thin wedges in a picture of that length. */
function mostThin(canvas: Canvas, longest: number): number {
  return Math.min(THIN_SLOPES.most, THIN_DEEPEST_PX / (canvas === 'kept' ? longest / 2 : longest))
}

/** Turns by both signs of the tangents from the least to the most of each canvas. */
function turnsBetween(
  range: (canvas: Canvas) => readonly [least: number, most: number],
  step: number,
): Turned[] {
  const turns: Turned[] = []
  for (const canvas of CANVASES) {
    const [least, most] = range(canvas)
    const count = Math.floor((most - least) / step + 1)
    for (let i = 0; i < count; i++) {
      const slope = least + i * step
      turns.push({ slope: -slope, canvas }, { slope, canvas })
    }
  }
  return turns
}

/**
 * Turns that leave thin wedges.
 * @param longest length of the picture's longer sides, px
 * @param stepPx by how much the deepest place of a wedge changes from one turn to the next, where the canvas kept its size
 */
export function thinTurns(longest: number, stepPx: number): Turned[] {
  const step = stepPx / (longest / 2)
  return turnsBetween((canvas) => [Math.max(THIN_SLOPES.least, step), mostThin(canvas, longest)], step)
}

/** Turns that are looked for, first at all of them and then more closely at some. */
export interface Search {
  readonly turns: readonly Turned[]
  /** Tangents that are tried around a candidate. */
  readonly closer: readonly number[]
  /** How all turns are looked at first, how the better ones are, those around candidates, and the last ones. */
  readonly coarse: TurnLook
  readonly again: TurnLook
  readonly fine: TurnLook
  readonly last: TurnLook
  /** How far the border of the picture may lie from where it should, px. */
  readonly phases: readonly number[]
}

/** The same of a candidate, in steps. @choice quarters */
const CLOSER_STEPS = [-0.5, -0.25, 0, 0.25, 0.5]
/** How far the border may lie from where it should, px. @choice a canvas of whole px and a crop of it leave a px at most; in quarters, since grain of two px mirrors in no other line */
const PHASES = [-1, -0.75, -0.5, -0.25, 0, 0.25, 0.5, 0.75, 1]
/** Length of a side up to which positions are read one beside the other, px; of longer ones as many. @choice more only cost time */
const READ_PX = 1400
/** Positions of a bin, and the longest side for each of them. @choice enough bins in small pictures; no source */
const BIN = { least: 16, most: 32, ofLongest: 1 / 25 }

/** Bins for a first look, eight positions of each. */
function coarseBin(longest: number): number {
  const size = BIN.least * Math.floor((longest * BIN.ofLongest) / BIN.least)
  return Math.max(BIN.least, Math.min(BIN.most, size))
}

/** Turns that leave thin wedges, in a picture at full size. */
export function thinSearch(longest: number): Search {
  const step = 2 / longest
  const times = Math.ceil(longest / READ_PX)
  const reach = THIN_DEEPEST_PX
  return {
    turns: thinTurns(longest, 1),
    closer: CLOSER_STEPS.map((steps) => steps * step),
    coarse: { size: times * coarseBin(longest), blocks: 1, reach, isMean: true },
    again: { size: times * BIN.least, blocks: 1, reach, isMean: true },
    fine: { size: times * BIN.least, blocks: 1, reach, isMean: true },
    last: { size: times * BIN.least, blocks: BIN.least / BLOCK, reach, isMean: false },
    phases: PHASES,
  }
}

/** How far from the line it is looked in a copy, px: at all turns, at the better ones, around candidates, and last. @choice chance doesn't go on as far as clothes and shoulders do; no source */
const REACH = { coarse: 12, again: 16, fine: 24, last: 40 } as const
/** Positions that are read one beside the other. @choice definition: those of a vector of the kernel */
const BLOCK = 8

/** Part of the thin turns that is looked for in a copy, too. @choice half: thin wedges of pictures with strong grain are seen better there */
const SEEN_TWICE = 0.5

/**
 * All deeper turns, in a copy of the picture.
 * @param longest length of the copy's longer sides, px, and of those of the smaller one in which all turns are looked at
 * @param full that of the picture
 */
export function copySearch(longest: number, smaller: number, full: number): Search {
  const step = 2 / smaller
  const size = coarseBin(longest)
  return {
    turns: turnsBetween((canvas) => [SEEN_TWICE * mostThin(canvas, full), MOST_SLOPE], step),
    closer: CLOSER_STEPS.map((steps) => steps * step),
    coarse: { size, blocks: 1, reach: REACH.coarse, isMean: true },
    again: { size, blocks: size / BLOCK, reach: REACH.again, isMean: true },
    fine: { size: BIN.most, blocks: 1, reach: REACH.fine, isMean: true },
    last: { size: BIN.most, blocks: BIN.most / BLOCK, reach: REACH.last, isMean: false },
    phases: PHASES,
  }
}
