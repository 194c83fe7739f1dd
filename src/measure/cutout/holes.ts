import { labPlanes } from '../../color/lab.ts'
import { type Region, regionsOf } from '../../imaging/regions.ts'
import type { RgbPicture } from '../../imaging/rgb-picture.ts'
import { between, common, erode } from '../../kernels/masks.ts'
import { type Backdrop, findBackdrop } from '../backdrop/backdrop.ts'
import type { FaceGeometry } from '../face/face-axes.ts'
import { silhouetteOf } from '../head/silhouette.ts'
import type { Holes } from '../schema/measurements.ts'
import { withoutGaps } from './body.ts'

/** Distance from the fitted backdrop within which a hole lies, standard deviations of the fit. @choice that of 1 in 2,000 normal values; no source */
const ALIKE_SIGMAS = 3.5
/** Largest standard deviation of a backdrop in which holes can be told, ΔE*ab. @choice beyond it half of the shades of cloth are within reach; no source */
const MOST_RESIDUAL = 1.5
/**
 * Largest mean distance of a patch from the fitted backdrop, ΔE*ab. @tuned on 16 studio portraits and 128 composites of them: holes 1.48 and less, saved at quality 82
 * too; most shades that pass through the backdrop's color have more
 */
const MOST_APART = 1.5
/** How far beyond a hole its surroundings are read, px of the copy. @choice an edge that is two px wide, as masks leave it, ends there; no source */
const AROUND = 3
/** Least difference of the surroundings from the backdrop, ΔE*ab. @choice plainly seen at an edge; no source */
const APART = 8
/** Least share of the surroundings that differ so. @tuned on the same: patches of cloth, skin and hair 0.7 and less, holes 0.87 and more */
const EDGED = 0.85
/** Fewest px of the copy. @choice six across; smaller ones are hardly seen, and buttons and lights in eyes are so small; no source */
const LEAST_PX = 30

/**
 * Patches inside the sitter where the backdrop shows: what a mask left out by mistake. Such a patch has the very color that the backdrop
 * has there and ends sharply all around, where cloth, skin and hair of the same color pass into their other shades. Patches that reach
 * where bodies have gaps, between arms and trunk or locks of hair, are none. Null where the backdrop is too uneven to tell, or the face passes for it.
 * @param copy of the picture
 * @param face in px of the copy
 */
export function findHoles(copy: RgbPicture, face: FaceGeometry): Holes | null {
  const { width, height } = copy
  const backdrop = findBackdrop(labPlanes(copy.data, width * height), width, height)
  if (backdrop.residual > MOST_RESIDUAL) return null
  const silhouette = silhouetteOf({ ...copy, data: backdrop.mask }, face)
  if (!silhouette) return null
  const alike = between(backdrop.distance, 0, ALIKE_SIGMAS * backdrop.residual)
  const patches = regionsOf(common(alike, silhouette.data), width).filter(
    (region) => region.length >= LEAST_PX && meanOver(region, backdrop.distance) <= MOST_APART,
  )
  const holes = inBody(patches, backdrop, face)
    .filter((region) => edgedShare(region, backdrop) >= EDGED)
    .toSorted((one, other) => other.length - one.length)
  return {
    boxes: holes.map((region) => boxOf(region, width, height)),
    areaPct: (100 * holes.reduce((sum, { length }) => sum + length, 0)) / (width * height),
  }
}

/** Those of which no pixel lies where bodies have gaps. */
function inBody(patches: readonly Region[], backdrop: Backdrop, face: FaceGeometry): Region[] {
  // Most portraits have no patch, and where gaps are takes long to tell.
  if (patches.length === 0) return []
  const whole = withoutGaps(backdrop, face)
  return patches.filter((region) => region.every((i) => whole[i] === 1))
}

function meanOver(region: Region, values: Float32Array): number {
  return region.reduce((sum, i) => sum + (values[i] as number), 0) / region.length
}

/** Share of what lies a few px beyond a region that differs from the backdrop. */
function edgedShare(region: Region, { distance, width, height }: Backdrop): number {
  const { left, top, right, bottom } = extentOf(region, width)
  const [fromX, fromY] = [Math.max(0, left - AROUND), Math.max(0, top - AROUND)]
  const [across, down] = [
    Math.min(width, right + AROUND + 1) - fromX,
    Math.min(height, bottom + AROUND + 1) - fromY,
  ]
  const outside = new Uint8Array(across * down).fill(1)
  for (const i of region) outside[(Math.floor(i / width) - fromY) * across + (i % width) - fromX] = 0
  const near = erode(outside, across, down, AROUND - 1)
  const far = erode(outside, across, down, AROUND)
  let [ring, apart] = [0, 0]
  for (let k = 0; k < near.length; k++) {
    if (near[k] === 0 || far[k] === 1) continue
    ring++
    const i = (fromY + Math.floor(k / across)) * width + fromX + (k % across)
    if ((distance[i] as number) >= APART) apart++
  }
  return ring === 0 ? 0 : apart / ring
}

function extentOf(region: Region, width: number) {
  let [left, top, right, bottom] = [Infinity, Infinity, -1, -1]
  for (const i of region) {
    const [x, y] = [i % width, Math.floor(i / width)]
    left = Math.min(left, x)
    right = Math.max(right, x)
    top = Math.min(top, y)
    bottom = Math.max(bottom, y)
  }
  return { left, top, right, bottom }
}

function boxOf(region: Region, width: number, height: number): Holes['boxes'][number] {
  const { left, top, right, bottom } = extentOf(region, width)
  return {
    x: left / width,
    y: top / height,
    width: (right + 1 - left) / width,
    height: (bottom + 1 - top) / height,
  }
}
