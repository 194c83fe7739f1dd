import { interpolate } from '../../../imaging/interpolate.ts'
import { type EyeSquare, SQUARE } from './eye-square.ts'

/** The edge of an iris of one radius where it fits best, in cells of its square. */
export interface IrisFit {
  readonly x: number
  readonly y: number
  readonly radius: number
  /** How much lighter it is outside of the edge than inside, at the side where it is less, codes; what lids and lights hide left out. */
  readonly contrast: number
}

/**
 * Directions to one side in which the edge is looked for, degrees from the line of the eyes, positive below it.
 * @choice every 8° up to 40°, which lids leave free, and one more below, where the lid is mostly lower than the iris is wide
 */
const ANGLES = [-40, -32, -24, -16, -8, 0, 8, 16, 24, 32, 40, 55] as const

/** How many of them may be hidden by lids, lashes and lights. @choice a quarter of the directions */
const HIDDEN = 3

/** How far beside the edge both sides are read, cells. @tuned on 142 frontal photographs with published marks */
const BESIDE = 2

/** Most that one direction counts, codes: a light beside the edge is steeper. @tuned on 142 frontal photographs with published marks */
const STEEPEST = 60

/** Where inside the iris darkness counts, share of its radius, and how much. @tuned on the same photographs */
const INSIDE = { radius: 0.6, weight: 0.06 } as const

/**
 * Radii that are tried, cells of 240 an inter-eye distance.
 * @source Rüfer, Schröder and Erb, Cornea 24(3), 2005: irises are 10.7 to 12.6 mm across; Dodgson, Proc. SPIE 5291, 2004: pupils
 *   are 52 to 78 mm apart, 63 in the mean. 20.4 to 24 cells at the mean, and what distances and marks vary.
 */
const RADII = { from: 17, to: 27, step: 0.5 } as const

/** How far beside the middle of the square the iris is looked for, and the first steps, cells. @choice what the network is off at most */
const SEARCH = { reach: 8, step: 2 } as const

/** Steps by which each is improved, cells, and how often at most by each. @choice to a quarter of a cell */
const FINER = { steps: [1, 0.5, 0.25], rounds: 4 } as const

/**
 * For each radius the circle across whose sides the picture lightens most, as Daugman finds irises (IEEE Trans. Pattern
 * Analysis and Machine Intelligence 15(11), 1993), from the smallest radius to the largest.
 * @param lean of the line of the eyes, radians, clockwise
 */
export function irisFits(square: EyeSquare, lean: number): readonly IrisFit[] {
  const middle = (SQUARE - 1) / 2
  const contrastAt = edgeContrast(square, lean)
  let start: IrisFit = { x: middle, y: middle, radius: 0, contrast: -Infinity }
  const mean = (RADII.from + RADII.to) / 2
  for (let y = -SEARCH.reach; y <= SEARCH.reach; y += SEARCH.step)
    for (let x = -SEARCH.reach; x <= SEARCH.reach; x += SEARCH.step)
      for (const radius of [mean - 2, mean, mean + 2]) {
        const contrast = contrastAt(middle + x, middle + y, radius)
        if (contrast > start.contrast) start = { x: middle + x, y: middle + y, radius, contrast }
      }
  const count = Math.round((RADII.to - RADII.from) / RADII.step) + 1
  return Array.from({ length: count }, (_, k) => improved(start, RADII.from + k * RADII.step, contrastAt))
}

type ContrastAt = (x: number, y: number, radius: number) => number

function improved(start: IrisFit, radius: number, contrastAt: ContrastAt): IrisFit {
  let { x, y } = start
  let contrast = contrastAt(x, y, radius)
  for (const step of FINER.steps) {
    for (let moved = true, round = 0; moved && round < FINER.rounds; round++) {
      moved = false
      for (const [dx, dy] of [
        [step, 0],
        [-step, 0],
        [0, step],
        [0, -step],
      ] as const) {
        const there = contrastAt(x + dx, y + dy, radius)
        if (there <= contrast) continue
        ;[x, y, contrast, moved] = [x + dx, y + dy, there, true]
      }
    }
  }
  return { x, y, radius, contrast }
}

/** The contrast across the edge of an iris there; less where it is light inside. */
function edgeContrast({ gray }: EyeSquare, lean: number): ContrastAt {
  const count = ANGLES.length
  const turns = [0, Math.PI].flatMap((side) =>
    ANGLES.map((angle) => lean + side + ((side === 0 ? 1 : -1) * angle * Math.PI) / 180),
  )
  const [us, vs] = [Float64Array.from(turns, Math.cos), Float64Array.from(turns, Math.sin)]
  const steps = new Float64Array(count)
  return (x, y, radius) => {
    const [outer, inner, deep] = [radius + BESIDE, radius - BESIDE, INSIDE.radius * radius]
    let [least, dark] = [Infinity, 0]
    for (let from = 0; from < turns.length; from += count) {
      for (let k = 0; k < count; k++) {
        const u = us[from + k] as number
        const v = vs[from + k] as number
        steps[k] = grayAt(gray, x + outer * u, y + outer * v) - grayAt(gray, x + inner * u, y + inner * v)
        dark += grayAt(gray, x + deep * u, y + deep * v)
      }
      steps.sort()
      let sum = 0
      for (let k = HIDDEN; k < count; k++) sum += Math.min(steps[k] as number, STEEPEST)
      least = Math.min(least, sum / (count - HIDDEN))
    }
    return least - (INSIDE.weight * dark) / turns.length
  }
}

function grayAt(gray: Float32Array, x: number, y: number): number {
  const [column, row] = [Math.floor(x), Math.floor(y)]
  if (column < 0 || row < 0 || column >= SQUARE - 1 || row >= SQUARE - 1) return 0
  const i = row * SQUARE + column
  return interpolate(
    gray[i] as number,
    gray[i + 1] as number,
    gray[i + SQUARE] as number,
    gray[i + SQUARE + 1] as number,
    x - column,
    y - row,
  )
}
