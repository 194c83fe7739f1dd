import { type Aim, type Aimed, aimedFit, isNearer } from './aim.ts'
import type { Size } from './ask.ts'
import { cropAxesOf } from './crop-axes.ts'
import { type Fit, largestFit, smallestFit } from './fit.ts'
import type { Problem } from './problem.ts'
import { deliveredSize } from './shape.ts'

/** The crop that is chosen among those that solve a problem, with the size to deliver it at. */
export interface Chosen extends Fit {
  readonly delivered: Size
}

export function largestCrop(problem: Problem): Chosen | null {
  let best: Chosen | null = null
  for (const sides of cropAxesOf(problem)) {
    const fit = largestFit(sides)
    if (!fit || (best && area(fit) <= area(best))) continue
    best = { ...fit, delivered: deliveredSize({ widthPx: fit.width, heightPx: fit.height }, sides.shape) }
  }
  return best
}

/** The crop that comes nearest to an aim. */
export function aimedCrop(problem: Problem, aim: Aim): Chosen | null {
  let best: (Aimed & Chosen) | null = null
  for (const sides of cropAxesOf(problem)) {
    const fit = aimedFit(sides, problem.sitter, aim)
    if (!fit || (best && !isNearer(fit, best))) continue
    best = { ...fit, delivered: deliveredSize({ widthPx: fit.width, heightPx: fit.height }, sides.shape) }
  }
  return best
}

/** The smallest crop for each region free of intrusions and each shape. */
export function smallestCrops(problem: Problem): Fit[] {
  return cropAxesOf(problem).flatMap((sides) => smallestFit(sides) ?? [])
}

function area({ width, height }: Fit): number {
  return width * height
}
