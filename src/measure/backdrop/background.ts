import type { LabPlanes } from '../../color/lab.ts'
import { valuesAt } from '../../imaging/pixel-indexes.ts'
import { countOf, erode, maskedMeansAt, samplesOf } from '../../kernels/masks.ts'
import { quantile, upperMedian } from '../../numbers/quantile.ts'
import { HALF_PLAIN_PCT } from '../schema/background.ts'
import type { Background, Doubt } from '../schema/measurements.ts'
import type { Backdrop } from './backdrop.ts'

/** How far to keep clear of the silhouette, share of the long edge. @choice hair edges and their soft shadow don't count; no source. */
const CLEARANCE = 0.012

/** How far around a pixel L* is averaged before its spread is read, share of the long edge. @choice noise goes, gradients stay; no source. */
const SMOOTHING = 0.012

/** Pixels that are read. @choice a median of so many is good to a hundredth of the spread. */
const SAMPLES = 20_000

/** Least backdrop that is measured, % of the frame. @choice no source: less is a gap beside the sitter. */
const ENOUGH_PCT = 5

/**
 * Least part of the border strips that follows one smooth surface on a plain backdrop, share of the samples.
 * @tuned on 8 drawn and 14 photographed walls and places: none of those that are not plain gives a confident number.
 */
const PLAIN_KEPT = 0.75

/** Largest residual of a plain backdrop, ΔE*ab. @tuned on the same walls and places. */
const PLAIN_RESIDUAL = 4

/** Percentiles of L* between which the unevenness lies, share of the pixels. @choice common practice, no source: what is beyond may be specks and hair. */
const ENDS = { low: 0.05, high: 0.95 } as const

/** What was found at the edges of the frame and of the sitter. */
interface Edges extends Pick<Background, 'intrusions' | 'straightening' | 'fringe' | 'holes'> {
  /** Share of the pixels that are not opaque. */
  readonly transparentShare: number
}

/** Share of the frame by which transparent wedges may be read too small at working size. @choice a pixel along each edge, no source. */
const ROUNDED = 0.005

/**
 * Lightness, evenness and tint of the backdrop. Values of CIELAB with white D50; see the type for the units.
 * @param plainShare what `plainShare` tells; null where no sitter was found
 */
export function measureBackground(
  lab: LabPlanes,
  backdrop: Backdrop,
  { intrusions, straightening, fringe, holes, transparentShare }: Edges,
  plainShare: number | null = null,
): Background {
  const { width, height } = backdrop
  const long = Math.max(width, height)
  let inner = erode(backdrop.mask, width, height, Math.round(CLEARANCE * long))
  if (!inner.includes(1)) inner = backdrop.mask
  const chosen = samplesOf(inner, SAMPLES)
  const middle = { L: medianOf(lab.L, chosen), a: medianOf(lab.a, chosen), b: medianOf(lab.b, chosen) }
  const smoothed = maskedMeansAt(chosen, lab.L, inner, width, height, Math.round(SMOOTHING * long))
  const coveragePct = (100 * countOf(backdrop.mask)) / (width * height)
  const plain = Math.min(plainness(backdrop), plainShare === null ? 1 : followed(plainShare))
  const sides = sidesOf(lab.L, chosen, width)
  const doubts: Doubt[] = []
  const isCutOut =
    transparentShare > (straightening?.fill === 'transparent' ? straightening.areaPct / 100 + ROUNDED : 0)
  if (isCutOut) doubts.push('backdrop-transparent')
  if (coveragePct < ENOUGH_PCT) doubts.push('backdrop-too-small')
  if (plain < 0.5) doubts.push('backdrop-not-plain')
  return {
    lightnessL: middle.L,
    unevennessL: quantile(smoothed, ENDS.high) - quantile(smoothed, ENDS.low),
    chromaC: Math.hypot(middle.a, middle.b),
    hueDeg: (Math.atan2(middle.b, middle.a) * (180 / Math.PI) + 360) % 360,
    lab: middle,
    coveragePct,
    plainPct: plainShare === null ? null : 100 * plainShare,
    ...(sides && { sides }),
    edges: edgesOf(backdrop),
    intrusions,
    straightening,
    fringe,
    holes,
    confidence: isCutOut ? 0 : Math.min(plain, coveragePct < ENOUGH_PCT ? coveragePct / (2 * ENOUGH_PCT) : 1),
    doubts,
  }
}

/** Parts of the width of which the outer ones are the sides. @choice the sitter stands in the middle one; no source */
const PARTS = 3

/** Least part of the backdrop that a side of the frame must have to be read, share. @choice less is a gap beside a shoulder; no source */
const SIDE_SHARE = 0.05

/** The lightness of the backdrop in the outer thirds of the frame; null where one has hardly any. */
function sidesOf(lightness: Float32Array, chosen: Int32Array, width: number): Background['sides'] | null {
  const left = inColumns(chosen, width, 0, width / PARTS)
  const right = inColumns(chosen, width, width - width / PARTS, width)
  if (Math.min(left.length, right.length) < SIDE_SHARE * chosen.length) return null
  return { leftL: medianOf(lightness, left), rightL: medianOf(lightness, right) }
}

/** Those of the pixels whose column is one of `from` up to and without `to`. */
function inColumns(chosen: Int32Array, width: number, from: number, to: number): Int32Array {
  const kept = new Int32Array(chosen.length)
  let count = 0
  for (let k = 0; k < chosen.length; k++) {
    const index = chosen[k] as number
    const column = index % width
    // Kept or not, it is written.
    kept[count] = index
    if (column >= from && column < to) count++
  }
  return kept.subarray(0, count)
}

/** How much of the outermost row or column of each side is backdrop. */
function edgesOf({ mask, width, height }: Backdrop): Background['edges'] {
  return {
    topPct: setPct(mask, width, 0, 1),
    rightPct: setPct(mask, height, width - 1, width),
    bottomPct: setPct(mask, width, (height - 1) * width, 1),
    leftPct: setPct(mask, height, 0, width),
  }
}

/** How many of so many pixels of a mask, `step` apart, are set, %. */
function setPct(mask: Uint8Array, length: number, first: number, step: number): number {
  let set = 0
  for (let k = 0; k < length; k++) set += mask[first + k * step] as number
  return (100 * set) / length
}

/** True when the fit is that of a backdrop: most of the border follows it closely. */
export function isPlain(backdrop: Backdrop): boolean {
  return plainness(backdrop) >= 0.5
}

/** The same by what follows one smooth surface behind the sitter. */
function followed(share: number): number {
  const half = HALF_PLAIN_PCT / 100
  return share >= half ? 0.5 + (0.5 * (share - half)) / (1 - half) : (0.5 * share) / half
}

/** 1 for a smooth backdrop, 0.5 at the limits of what still counts as plain, towards 0 for a pattern or a place. */
function plainness({ kept, residual }: Backdrop): number {
  const byShare =
    kept >= PLAIN_KEPT ? 0.5 + (0.5 * (kept - PLAIN_KEPT)) / (1 - PLAIN_KEPT) : (0.5 * kept) / PLAIN_KEPT
  const byResidual = 1 / (1 + (residual / PLAIN_RESIDUAL) ** 2)
  return Math.min(byShare, byResidual)
}

function medianOf(plane: Float32Array, indexes: Int32Array): number {
  return upperMedian(valuesAt(plane, indexes))
}
