import type { LabPlanes } from '../color/lab.ts'
import { floodFromEdge } from './flood.ts'
import { findOutlines } from './outline.ts'
import { type Fit, fitSurface, type Surface, surfaceAt } from './surface.ts'

/**
 * The backdrop of one picture at working size: which pixels are backdrop, and how far each pixel's color
 * stands off the fitted backdrop.
 */
export interface Backdrop {
  readonly width: number
  readonly height: number
  /** 1 where the pixel is backdrop, else 0; row by row. */
  readonly mask: Uint8Array
  /** Color distance (ΔE*ab 1976) of each pixel from the fitted backdrop surface. */
  readonly distance: Float32Array
  /** 1 where lightness changes faster than a backdrop's can: an outline that the flood does not cross. */
  readonly outline: Uint8Array
  /** Distance up to which a pixel counts as backdrop. */
  readonly threshold: number
  /** Robust standard deviation of the backdrop around the fitted surface, ΔE*ab. */
  readonly residual: number
  /** 1 where something was found to stand that is neither backdrop nor sitter; null when nothing was. */
  readonly foreign: Uint8Array | null
  /** Share of the border samples (top strip, upper side strips) that belong to the fitted backdrop, 0..1. */
  readonly kept: number
}

// Strips of the frame's border where nothing but backdrop is expected: a share of the frame's short edge.
const STRIP = 0.03
// The side strips end here (share of the height): below it shoulders and arms may leave the frame.
const SIDES_END = 0.35
const SAMPLES = 2500
// Threshold and its floor: found on 12 real portraits in front of plain, often graded or textured walls.
const THRESHOLD_FLOOR = 6
const THRESHOLD_SIGMAS = 3.5
// 8-bit rounding alone is worth about 0.2 L*; a fit finer than this chases it.
const SIGMA_FLOOR = 0.4
const GROWING_ROUNDS = 3

/**
 * Separates the backdrop from the sitter. A quadratic surface per CIELAB channel (a backdrop falls off smoothly
 * towards the corners) is fitted robustly to the border, pixels near it are flooded from the frame's edge, and
 * the fit is repeated on what was flooded, each round reaching further down the frame.
 * @param foreign 1 where something is known to stand that is not backdrop
 */
export function findBackdrop(
  lab: LabPlanes,
  width: number,
  height: number,
  foreign: Uint8Array | null = null,
): Backdrop {
  let samples = borderSamples(width, height, foreign)
  let fits = fitAll(lab, samples, width, height)
  const kept = Math.min(...fits.map((fit) => fit.kept))
  let residual = residualOf(fits)
  let distance = distances(lab, fits, width, height, foreign)
  const sidesEnd = Math.round(SIDES_END * height)
  const outline = findOutlines(lab.L, width, height, samples)
  let mask: Uint8Array = new Uint8Array(width * height)
  for (let round = 1; round <= GROWING_ROUNDS; round++) {
    const reach = Math.round(height * (SIDES_END + ((1 - SIDES_END) * round) / GROWING_ROUNDS))
    mask = floodFromEdge({ distance, outline, width, height }, thresholdFor(residual), sidesEnd, reach)
    samples = maskSamples(mask)
    if (samples.length < SAMPLES / 100) break
    fits = fitAll(lab, samples, width, height)
    residual = residualOf(fits)
    distance = distances(lab, fits, width, height, foreign)
  }
  const threshold = thresholdFor(residual)
  mask = floodFromEdge({ distance, outline, width, height }, threshold, sidesEnd, height)
  return { width, height, mask, distance, outline, threshold, residual, foreign, kept }
}

/** The mask that another threshold would give: how much the silhouette depends on the choice. */
export function maskAt(backdrop: Backdrop, threshold: number): Uint8Array {
  return floodFromEdge(backdrop, threshold, Math.round(SIDES_END * backdrop.height), backdrop.height)
}

function thresholdFor(residual: number): number {
  return Math.max(THRESHOLD_FLOOR, THRESHOLD_SIGMAS * residual)
}

function residualOf(fits: readonly Fit[]): number {
  return Math.hypot(...fits.map((fit) => fit.sigma))
}

/** Pixel indexes of the top strip and of the upper side strips, thinned to about SAMPLES; what is foreign left out. */
export function borderSamples(width: number, height: number, foreign: Uint8Array | null): Int32Array {
  const strip = Math.max(2, Math.round(STRIP * Math.min(width, height)))
  const sidesEnd = Math.round(SIDES_END * height)
  const all: number[] = []
  for (let y = 0; y < sidesEnd; y++) {
    for (let x = 0; x < width; x++) {
      const i = y * width + x
      if ((y < strip || x < strip || x >= width - strip) && foreign?.[i] !== 1) all.push(i)
    }
  }
  return thin(Int32Array.from(all))
}

function maskSamples(mask: Uint8Array): Int32Array {
  const all: number[] = []
  for (let i = 0; i < mask.length; i++) if (mask[i] === 1) all.push(i)
  return thin(Int32Array.from(all))
}

function thin(indexes: Int32Array): Int32Array {
  const step = Math.max(1, indexes.length / SAMPLES)
  return Int32Array.from(
    { length: Math.floor(indexes.length / step) },
    (_, i) => indexes[Math.floor(i * step)] as number,
  )
}

function fitAll(lab: LabPlanes, samples: Int32Array, width: number, height: number): Fit[] {
  const xs = Float32Array.from(samples, (i) => unit(i % width, width))
  const ys = Float32Array.from(samples, (i) => unit(Math.floor(i / width), height))
  return [lab.L, lab.a, lab.b].map((plane) =>
    fitSurface(
      xs,
      ys,
      Float32Array.from(samples, (i) => plane[i] as number),
      SIGMA_FLOOR,
    ),
  )
}

function unit(at: number, size: number): number {
  return (2 * (at + 0.5)) / size - 1
}

/** Infinite where something foreign stands. */
function distances(
  lab: LabPlanes,
  fits: readonly Fit[],
  width: number,
  height: number,
  foreign: Uint8Array | null,
): Float32Array {
  const [L, a, b] = fits.map((fit) => fit.surface) as [Surface, Surface, Surface]
  const out = new Float32Array(width * height)
  for (let y = 0, i = 0; y < height; y++) {
    const v = unit(y, height)
    for (let x = 0; x < width; x++, i++) {
      if (foreign?.[i] === 1) {
        out[i] = Number.POSITIVE_INFINITY
        continue
      }
      const u = unit(x, width)
      const dL = (lab.L[i] as number) - surfaceAt(L, u, v)
      const da = (lab.a[i] as number) - surfaceAt(a, u, v)
      const db = (lab.b[i] as number) - surfaceAt(b, u, v)
      out[i] = Math.sqrt(dL * dL + da * da + db * db)
    }
  }
  return out
}
