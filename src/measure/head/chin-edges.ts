import type { FacePlace } from '../face/face-axes.ts'
import { type ChinPatch, patchAt } from './chin-patch.ts'

/** A step of tone along the chin's arc. */
export interface ChinEdge {
  /** Cells from the mesh's arc down the axis of the face; negative above the arc. */
  readonly offset: number
  /** Slope of the color in CIE L*a*b* units over 10 cells, taken over the arc. */
  readonly strength: number
  /** True when it is darker below. */
  readonly darkens: boolean
  /** Cosine, -1..1, between the step and the one from the upper color to black: near 1 where the same skin is in shade. */
  readonly shades: number
}

/** Columns in which the arc is looked at. @choice about two cells apart, no source. */
const SAMPLES = 31

/** How far above the arc is looked, cells. @choice more than the chin is looked for in (chin.ts), no source. */
const ABOVE = 12

/** How far below the arc is looked, cells. @choice more than a beard's end is looked for in (chin.ts), no source. */
const BELOW = 24

/** Step of the search, cells. @choice half a cell, no source. */
const STEP = 0.5

/** Sigma of the Gaussian whose derivative finds steps, cells. @choice finer than the blur of a chin's edge in a small picture. */
const SIGMA = 2

/** How far it reaches, sigmas. @choice common practice: what is beyond weighs a hundredth. */
const SIGMAS = 3

/** Slopes are given as the change over this length, cells. @choice no source: the unit of LEAST_STEP in chin.ts. */
const OVER = 10

/** Where the upper color is read, cells above the step. @choice beyond the step's own blur, no source. */
const UPPER = 5

/**
 * Lightness on which the colors of one skin converge in ever less light, L*.
 * @source CIE 15:2004: f(Y) = (L + 16) / 116 is zero there.
 */
const BLACK = -16

type Color = readonly [L: number, a: number, b: number]

/**
 * The steps of tone that run along the chin's arc: colors are averaged along the arc and its shifts down the axis of the
 * face, so that hairs and wrinkles cancel out and what follows the arc stays.
 * @param arc points of the mesh's lower contour around the chin, from left to right
 */
export function chinEdges(patch: ChinPatch, arc: readonly FacePlace[]): ChinEdge[] {
  const count = Math.round((ABOVE + BELOW) / STEP) + 1
  const colors = Array.from({ length: count }, (_, i) => arcColor(patch, arc, i * STEP - ABOVE))
  const slopes = colors.map((_, i) => slopeAt(colors, i))
  const strengths = slopes.map((slope) => Math.hypot(...slope))
  const edges: ChinEdge[] = []
  for (let i = 1; i < count - 1; i++) {
    const [before, here, after] = strengths.slice(i - 1, i + 2) as [number, number, number]
    if (here <= before || here < after) continue
    const slope = slopes[i] as Color
    const [L, a, b] = colors[Math.max(0, i - Math.round(UPPER / STEP))] as Color
    const upper: Color = [L - BLACK, a, b]
    edges.push({
      offset: (i + vertex(before, here, after)) * STEP - ABOVE,
      strength: here,
      darkens: slope[0] < 0,
      shades: -dot(upper, slope) / (Math.hypot(...upper) * here || 1),
    })
  }
  return edges
}

function arcColor(patch: ChinPatch, arc: readonly FacePlace[], offset: number): Color {
  const { L, a, b } = patch.planes
  const sum: [number, number, number] = [0, 0, 0]
  const from = arc[0]?.across ?? 0
  const to = arc.at(-1)?.across ?? 0
  for (let column = 0; column < SAMPLES; column++) {
    const across = from + ((to - from) * column) / (SAMPLES - 1)
    const place = { across, along: arcAt(arc, across) + offset }
    sum[0] += patchAt(L, place)
    sum[1] += patchAt(a, place)
    sum[2] += patchAt(b, place)
  }
  return [sum[0] / SAMPLES, sum[1] / SAMPLES, sum[2] / SAMPLES]
}

function arcAt(arc: readonly FacePlace[], across: number): number {
  const next = arc.findIndex((point) => point.across >= across)
  const right = arc[next] ?? arc.at(-1)
  const left = arc[Math.max(0, next - 1)] ?? right
  if (!left || !right) return 0
  const span = right.across - left.across
  return span > 0 ? left.along + ((right.along - left.along) * (across - left.across)) / span : right.along
}

/** Convolution with the derivative of a Gaussian, over `OVER` cells; the end colors are repeated. */
function slopeAt(colors: readonly Color[], index: number): Color {
  const sigma = SIGMA / STEP
  const reach = Math.ceil(SIGMAS * sigma)
  const slope: [number, number, number] = [0, 0, 0]
  for (let offset = -reach; offset <= reach; offset++) {
    const weight = (offset * Math.exp(-0.5 * (offset / sigma) ** 2)) / (sigma ** 3 * Math.sqrt(2 * Math.PI))
    const color = colors[Math.min(colors.length - 1, Math.max(0, index + offset))] as Color
    for (let k = 0; k < 3; k++)
      slope[k] = (slope[k] as number) + (weight * (color[k] as number) * OVER) / STEP
  }
  return slope
}

/** Where a parabola through three values has its top, from the middle one, in steps. */
function vertex(before: number, here: number, after: number): number {
  return (0.5 * (before - after)) / (before - 2 * here + after)
}

function dot(a: Color, b: Color): number {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
}
