import {
  CIRCLE,
  type CircleSearch,
  circleContrasts,
  improvedCircle,
  type LaidSquare,
  layOutSquare,
} from '../../../kernels/circles.ts'
import { edgeAcross } from './edge-reading.ts'
import { type EyeSquare, SQUARE } from './eye-square.ts'

/** In cells of a square around an eye. */
interface Circle {
  readonly x: number
  readonly y: number
  readonly radius: number
}

/** The edge of an iris where it fits best. */
export interface IrisFit extends Circle {
  /** How much lighter it is outside of the edge than inside, codes; what lids and lights hide left out. */
  readonly contrast: number
  /** The same at the side where it is less: hair, lids and rims mostly look like one side of an iris only. */
  readonly leastContrast: number
}

/**
 * Directions to one side in which the edge is looked for, degrees from the line of the eyes, positive below it.
 * @tuned on 102 eyes of 51 photographs with published marks: every 8° up to 40°, which lids leave free, and below it up to 70°, without which
 *   irises are seen 0.5 % of the distance between the eyes lower
 */
const ANGLES = [-40, -32, -24, -16, -8, 0, 8, 16, 24, 32, 40, 50, 60, 70] as const

/** How many of them may be hidden by lids, lashes and lights. @choice a quarter of the directions */
const HIDDEN = 4

/** How far beside the edge both sides are read, cells. @tuned on the same eyes: 1.25 to 1.75 do as well, 3 is a third worse */
const BESIDE = 1.5

/**
 * The first look: fewer directions, read farther beside the edge, and steps and radii in cells.
 * @tuned on the same eyes: as near as a search of every second cell, in a sixth of the time
 */
const FIRST = { angles: [-40, -20, 0, 20, 40, 60], hidden: 2, beside: 2.5, step: 3, radii: [20, 23] } as const

/**
 * How far from the best place of the first look the second is that is followed too, cells, and how much better it must end, codes: a pupil, a lid
 * or lashes may look better at first.
 * @tuned on the same photographs and 459 copies of them, cut, turned, made smaller, lighter, darker and grainy: so no eye is off by more than 2.3 % of
 *   the distance between the eyes, without it by 3.3; 4 and 9 cells and a third place do as well, and in small pictures less of a margin does worse
 */
const SECOND = { apart: 6, better: 1 } as const

/**
 * How far along the line of the eyes and square to it the iris is looked for, cells.
 * @tuned on the same eyes: the mesh's are up to 14 cells off, the last steps included; eyes that look aside are up to 30 along the line
 */
const REACH = { along: 24, across: 12 } as const

/**
 * Radii that are tried, cells of 240 an inter-eye distance.
 * @source Rüfer, Schröder and Erb, Cornea 24(3), 2005: irises are 10.7 to 12.6 mm across; Dodgson, Proc. SPIE 5291, 2004: pupils
 *   are 52 to 78 mm apart, 63 in the mean. 20.4 to 24 cells at the mean, and what distances and marks vary.
 */
const RADII = { from: 17, to: 27, step: 0.5 } as const

/** Steps by which a fit is improved, cells, and how often at most by each. @choice to a quarter of a cell */
const FINER = { steps: [2, 1, 0.5, 0.25], rounds: 6 } as const

/**
 * The circle across whose edge the picture lightens most, as Daugman finds irises (IEEE Trans. Pattern Analysis and Machine
 * Intelligence 15(11), 1993), from a coarse grid to fine steps.
 * @param lean of the line of the eyes, radians, clockwise
 */
export function irisFit({ gray }: EyeSquare, lean: number): IrisFit {
  return bestFit(layOutSquare(gray, SQUARE), lean)
}

/** For each radius the same, from the smallest to the largest. */
export function irisFits({ gray }: EyeSquare, lean: number): readonly IrisFit[] {
  const square = layOutSquare(gray, SQUARE)
  const start = bestFit(square, lean)
  const count = Math.round((RADII.to - RADII.from) / RADII.step) + 1
  return Array.from({ length: count }, (_, k) => {
    const radius = RADII.from + k * RADII.step
    return improved(square, lean, { ...start, radius }, ASIDE)
  })
}

function bestFit(square: LaidSquare, lean: number): IrisFit {
  const [first, second] = firstLook(square, lean).map((start) => improved(square, lean, start, MOVES)) as [
    IrisFit,
    IrisFit,
  ]
  return second.contrast > first.contrast + SECOND.better ? second : first
}

/** Whether an iris is as small or as large as any that is looked for: what fits best is then something else. */
export function isExtreme({ radius }: IrisFit): boolean {
  return radius < RADII.from + RADII.step || radius > RADII.to - RADII.step
}

/** The best circle of the first look, and the best that is elsewhere. */
function firstLook(square: LaidSquare, lean: number): readonly [Circle, Circle] {
  const { angles, hidden, beside, step, radii } = FIRST
  const middle = (SQUARE - 1) / 2
  const circles: number[] = []
  const [cos, sin] = [Math.cos(lean), Math.sin(lean)]
  for (let across = -REACH.across; across <= REACH.across; across += step)
    for (let along = -REACH.along; along <= REACH.along; along += step)
      for (const radius of radii)
        circles.push(middle + along * cos - across * sin, middle + along * sin + across * cos, radius)
  const seen = Float64Array.from(circles)
  const contrasts = circleContrasts(square, edgeAcross(lean, angles, hidden, beside), seen)
  const best = clearest(seen, contrasts, null)
  return [best, clearest(seen, contrasts, best)]
}

/** The circle of the most contrast; of those that are elsewhere than one. */
function clearest(circles: Float64Array, contrasts: Float64Array, elsewhere: Circle | null): Circle {
  let best: Circle | null = null
  let most = Number.NEGATIVE_INFINITY
  for (let k = 0; CIRCLE * k < circles.length; k++) {
    const [x, y] = [circles[CIRCLE * k] as number, circles[CIRCLE * k + 1] as number]
    const contrast = contrasts[2 * k] as number
    if (contrast <= most) continue
    if (elsewhere && Math.hypot(x - elsewhere.x, y - elsewhere.y) < SECOND.apart) continue
    most = contrast
    best = { x, y, radius: circles[CIRCLE * k + 2] as number }
  }
  return best as Circle
}

/** Ways to move a circle to the sides, in steps: to the right, down, and outwards. @choice definition */
const ASIDE = [...[1, 0, 0], ...[-1, 0, 0], ...[0, 1, 0], ...[0, -1, 0]] as const
/** And to larger and smaller circles. @choice half a step, since radii vary less than places */
const MOVES = [...ASIDE, ...[0, 0, 0.5], ...[0, 0, -0.5]] as const

function improved(
  square: LaidSquare,
  lean: number,
  { x, y, radius }: Circle,
  moves: readonly number[],
): IrisFit {
  const search: CircleSearch = {
    moves: Float64Array.from(moves),
    steps: Float64Array.from(FINER.steps),
    rounds: FINER.rounds,
    radii: RADII,
  }
  const found = improvedCircle(square, edgeAcross(lean, ANGLES, HIDDEN, BESIDE), [x, y, radius], search)
  const [atX = 0, atY = 0, wide = 0, contrast = 0, leastContrast = 0] = found
  return { x: atX, y: atY, radius: wide, contrast, leastContrast }
}
