import { type Circle, type Contrasts, contrastsOf, type EdgeReading, edgeAcross } from './edge-reading.ts'
import { type EyeSquare, SQUARE } from './eye-square.ts'

/** The edge of an iris where it fits best. */
export interface IrisFit extends Circle, Contrasts {}

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
export function irisFit(square: EyeSquare, lean: number): IrisFit {
  return bestFit(square, lean, finely(square, lean))
}

/** For each radius the same, from the smallest to the largest. */
export function irisFits(square: EyeSquare, lean: number): readonly IrisFit[] {
  const edge = finely(square, lean)
  const start = bestFit(square, lean, edge)
  const count = Math.round((RADII.to - RADII.from) / RADII.step) + 1
  return Array.from({ length: count }, (_, k) => {
    const radius = RADII.from + k * RADII.step
    return improved({ ...start, radius }, edge, ASIDE)
  })
}

function finely(square: EyeSquare, lean: number): EdgeReading {
  return edgeAcross(square, lean, ANGLES, HIDDEN, BESIDE)
}

function bestFit(square: EyeSquare, lean: number, edge: EdgeReading): IrisFit {
  const [first, second] = firstLook(square, lean).map((start) => improved(start, edge, MOVES)) as [
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
function firstLook(square: EyeSquare, lean: number): readonly [Circle, Circle] {
  const { angles, hidden, beside, step, radii } = FIRST
  const edge = edgeAcross(square, lean, angles, hidden, beside)
  const middle = (SQUARE - 1) / 2
  const seen: Array<Circle & Contrasts> = []
  const [cos, sin] = [Math.cos(lean), Math.sin(lean)]
  for (let across = -REACH.across; across <= REACH.across; across += step)
    for (let along = -REACH.along; along <= REACH.along; along += step)
      for (const radius of radii) {
        const [x, y] = [middle + along * cos - across * sin, middle + along * sin + across * cos]
        const circle = { x, y, radius }
        seen.push({ ...circle, ...contrastsOf(edge, circle) })
      }
  const best = clearest(seen)
  return [best, clearest(seen.filter(({ x, y }) => Math.hypot(x - best.x, y - best.y) >= SECOND.apart))]
}

function clearest<T extends Contrasts>(circles: readonly T[]): T {
  return circles.reduce((best, circle) => (circle.contrast > best.contrast ? circle : best))
}

/** Ways to move a circle, in steps: to the right, down, and outwards. */
type Move = readonly [right: number, down: number, wider: number]
/** To the sides. @choice definition */
const ASIDE: readonly Move[] = [
  [1, 0, 0],
  [-1, 0, 0],
  [0, 1, 0],
  [0, -1, 0],
]
/** And to larger and smaller circles. @choice half a step, since radii vary less than places */
const MOVES: readonly Move[] = [...ASIDE, [0, 0, 0.5], [0, 0, -0.5]]

function improved(start: Circle, edge: EdgeReading, moves: readonly Move[]): IrisFit {
  let best: IrisFit = { ...start, ...contrastsOf(edge, start) }
  for (const step of FINER.steps) {
    for (let moved = true, round = 0; moved && round < FINER.rounds; round++) {
      moved = false
      for (const [right, down, wider] of moves) {
        const radius = Math.min(RADII.to, Math.max(RADII.from, best.radius + step * wider))
        const there = { x: best.x + step * right, y: best.y + step * down, radius }
        const contrasts = contrastsOf(edge, there)
        if (contrasts.contrast <= best.contrast) continue
        best = { ...there, ...contrasts }
        moved = true
      }
    }
  }
  return best
}
