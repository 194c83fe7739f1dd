import type { LabPlanes } from '../../color/lab.ts'
import { thinned, valuesAt } from '../../imaging/pixel-indexes.ts'
import { smoothPlane } from '../../imaging/smoothing.ts'
import { type Fit, fitSurface, type Surface } from '../../imaging/surface.ts'
import type { Ground, GroundPlanes } from '../../kernels/ground.ts'
import { groundFrom, SMEAR } from './flood.ts'
import { findOutlines, slopesOf } from './outline.ts'

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

/** Width of the strips of the frame's border where nothing but backdrop is expected, share of the frame's short edge. @choice no source: 30 px of 1000. */
const STRIP = 0.03

/** Where the side strips end, share of the height. @choice below it shoulders and arms may leave the frame; no source. */
const SIDES_END = 0.35

/** Pixels that a surface is fitted to. @tuned on the drawn and marked portraits: from 6000 down their errors stay the same, in less time. */
const SAMPLES = 2500

/**
 * Least distance from the fitted surface that is not backdrop, ΔE*ab.
 * @tuned on 12 photographs before plain, often graded or textured walls.
 */
const THRESHOLD_FLOOR = 6

/** The same in standard deviations of the fit. @tuned on the same 12 photographs. */
const THRESHOLD_SIGMAS = 3.5

/** Least standard deviation of a fit, L*. @choice 8-bit rounding alone is worth about 0.2 L*; a fit finer than this chases it. */
const SIGMA_FLOOR = 0.4

/** Rounds in which the fit reaches down the frame. @choice no source: a third of the way each, so that no round guesses far. */
const GROWING_ROUNDS = 3

/**
 * Separates the backdrop from the sitter. A quadratic surface per CIELAB channel (a backdrop falls off smoothly
 * towards the corners) is fitted robustly to the border, pixels near it are flooded from the frame's edge, and
 * the fit is repeated on what was flooded, each round reaching further down the frame.
 * @param foreign 1 where something is known to stand that is not backdrop
 * @param slopes of the lightness without its grain, where they are known already
 */
export function findBackdrop(
  lab: LabPlanes,
  width: number,
  height: number,
  foreign: Uint8Array | null = null,
  slopes = slopesOf(smoothPlane(lab.L, width, height), width, height),
): Backdrop {
  let samples = borderSamples(width, height, foreign)
  let fits = fitAll(lab, samples, width, height)
  const kept = Math.min(...fits.map((fit) => fit.kept))
  const sidesEnd = Math.round(SIDES_END * height)
  const outline = findOutlines(slopes, samples)
  const ground = groundFrom(outline, width, sidesEnd)
  const planes = ground.put([lab.L, lab.a, lab.b], unitsOf(width))
  const read = { ground, planes, height, foreign }
  for (let round = 1; round <= GROWING_ROUNDS; round++) {
    const reach = Math.round(height * (SIDES_END + ((1 - SIDES_END) * round) / GROWING_ROUNDS))
    readDistances(read, fits, reach)
    ground.flood(thresholdFor(residualOf(fits)), reach, SMEAR)
    samples = ground.samples(SAMPLES)
    if (samples.length < SAMPLES / 100) break
    fits = fitAll(lab, samples, width, height)
  }
  readDistances(read, fits, height)
  const residual = residualOf(fits)
  const threshold = thresholdFor(residual)
  ground.flood(threshold, height, SMEAR)
  const { mask, distance } = ground
  return { width, height, mask, distance, outline, threshold, residual, foreign, kept }
}

/** The mask that another threshold would give: how much the silhouette depends on the choice. */
export function maskAt({ outline, distance, width, height }: Backdrop, threshold: number): Uint8Array {
  const ground = groundFrom(outline, width, Math.round(SIDES_END * height))
  ground.distance = distance
  ground.flood(threshold, height, SMEAR)
  return ground.mask
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
  const all = new Int32Array(sidesEnd * width)
  let count = 0
  for (let y = 0; y < sidesEnd; y++) {
    for (let x = 0; x < width; x++) {
      // Below the top strip, from the left strip to the right one.
      if (y >= strip && x === strip) x = Math.max(x, width - strip)
      const i = y * width + x
      if (foreign?.[i] !== 1) all[count++] = i
    }
  }
  return thinned(all.subarray(0, count), SAMPLES)
}

function fitAll(lab: LabPlanes, samples: Int32Array, width: number, height: number): Fit[] {
  const xs = new Float32Array(samples.length)
  const ys = new Float32Array(samples.length)
  for (let k = 0; k < samples.length; k++) {
    const i = samples[k] as number
    xs[k] = unit(i % width, width)
    ys[k] = unit(Math.floor(i / width), height)
  }
  return [lab.L, lab.a, lab.b].map((plane) => fitSurface(xs, ys, valuesAt(plane, samples), SIGMA_FLOOR))
}

function unit(at: number, size: number): number {
  return (2 * (at + 0.5)) / size - 1
}

/** Terms of a parabola. @choice definition. */
const TERMS = 3

/** What is read to tell how far pixels stand off the backdrop. */
interface Read {
  readonly ground: Ground
  readonly planes: GroundPlanes
  readonly height: number
  readonly foreign: Uint8Array | null
}

/** Reads how far the rows above `reach` stand off the fitted surfaces; infinite where something foreign stands. */
function readDistances({ ground, planes, height, foreign }: Read, fits: readonly Fit[], reach: number): void {
  const terms = new Float32Array(TERMS * fits.length * reach)
  for (let y = 0, k = 0; y < reach; y++)
    for (const { surface } of fits) k = writeRow(surface, unit(y, height), terms, k)
  ground.readDistances(planes, terms)
  if (foreign) ground.bar(foreign, reach)
}

function unitsOf(size: number): Float32Array {
  const units = new Float32Array(size)
  for (let at = 0; at < size; at++) units[at] = unit(at, size)
  return units
}

/** Along one row a quadratic surface is a parabola: writes its three terms. @returns where the next ones go */
function writeRow(surface: Surface, v: number, terms: Float32Array, at: number): number {
  const [c0, c1, c2] = [surface[0] as number, surface[1] as number, surface[2] as number]
  const [c3, c4, c5] = [surface[3] as number, surface[4] as number, surface[5] as number]
  terms[at] = c0 + c2 * v + c5 * v * v
  terms[at + 1] = c1 + c4 * v
  terms[at + 2] = c3
  return at + TERMS
}
