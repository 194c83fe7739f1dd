import { fitEdge, type Profile } from './edge-fit.ts'
import { type Edge, steepestEdges } from './edges.ts'
import { lumaAt, type Patch } from './patch.ts'

/** One edge's spread in pixels, and the slope by which it counts. */
export interface EdgeSpread {
  readonly sigma: number
  readonly weight: number
}

// The steepest edges are read; more add nothing but time.
const MOST_EDGES = 80
const ROUNDS = 3
// A profile reaches this many spreads and two pixels to each side of its edge.
const WINDOW = 2
// A profile that two blurred steps explain less well than this crosses something else besides.
const EXPLAINED = 0.997
// Reading between pixels and the width of a pixel add these to the variance, px².
const READING = 1 / 6
// Found on drawn eyes blurred by known amounts: the spread lies here among those of the steepest edges, by weight.
const QUANTILE = 0.6
const FEWEST = 8

/**
 * Spreads of the steepest edges of a patch: each profile is averaged along its edge and fitted, with a window that follows
 * the spread found. Empty when the patch has too few edges that can be read.
 * @param scale pixels per pixel at an inter-eye distance of 240 px: what a fine structure of the face measures
 */
export function edgeSpreads(patch: Patch, scale: number): EdgeSpread[] {
  const edges = steepestEdges(patch, Math.max(0.7, scale), Math.max(2, Math.round(2 * scale)), MOST_EDGES)
  let spread = 1.5 * scale
  let found: EdgeSpread[] = []
  for (let round = 0; round < ROUNDS; round++) {
    found = edges.flatMap((edge) => spreadOf(patch, edge, spread, scale) ?? [])
    if (found.length < FEWEST) return []
    spread = Math.min(8 * scale, Math.max(0.6 * scale, summary(found)))
  }
  return found
}

/** The spread that a set of edges stands for, in pixels. */
export function summary(spreads: readonly EdgeSpread[]): number {
  const sorted = [...spreads].sort((a, b) => a.sigma - b.sigma)
  const total = sorted.reduce((sum, { weight }) => sum + weight, 0)
  let seen = 0
  for (const { sigma, weight } of sorted) {
    seen += weight
    if (seen >= QUANTILE * total) return sigma
  }
  return Number.NaN
}

function spreadOf(patch: Patch, edge: Edge, spread: number, scale: number): EdgeSpread | null {
  const profile = profileAcross(
    patch,
    edge,
    Math.max(4, WINDOW * spread + 2),
    Math.max(1, Math.round(1.5 * scale)),
  )
  const fit = profile && fitEdge(profile, Math.max(0.6, spread))
  if (!fit || fit.explained < EXPLAINED || Math.abs(fit.offset) > 2 * spread + 1) return null
  return { sigma: Math.sqrt(Math.max(0.01, fit.sigma ** 2 - READING)), weight: edge.slope }
}

/** Luma every half pixel across an edge, averaged along it over `along` pixels to each side, so that grain fades. */
function profileAcross(patch: Patch, edge: Edge, reach: number, along: number): Profile | null {
  const count = Math.floor(4 * reach) + 1
  const at = Float64Array.from({ length: count }, (_, i) => -reach + i / 2)
  const luma = at.map((d) => {
    let sum = 0
    for (let t = -along; t <= along; t++) {
      sum += lumaAt(
        patch,
        edge.x + d * edge.acrossX - t * edge.acrossY,
        edge.y + d * edge.acrossY + t * edge.acrossX,
      )
    }
    return sum / (2 * along + 1)
  })
  return luma.some(Number.isNaN) ? null : { at, luma }
}
