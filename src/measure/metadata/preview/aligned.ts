import type { LabPlanes } from '../../../color/lab.ts'
import { distances, fitColors, mapColors } from './affine.ts'
import { findChanges } from './changes.ts'

/** Two pictures of the same size and crop, beside each other. */
export interface Aligned {
  /** Change of color everywhere alike: the 90th percentile over the pixels, ΔE*ab (1976). */
  readonly tones: number
  /** Largest difference in one place, see {@link findChanges}. */
  readonly largest: number
  /** Where differences are beyond doubt; null when nowhere. */
  readonly changed: Changed | null
}

interface Changed {
  /** Share of the frame, in percent. */
  readonly pct: number
  /** Around all of it, in px of the pictures. */
  readonly left: number
  readonly top: number
  readonly right: number
  readonly bottom: number
}

/**
 * Largest difference in one place that may come from how the preview was made, ΔE.
 * @tuned on 24 real and drawn portraits, made small to 120 to 256 px by five ways of resampling, sharpened or blurred, JPEG qualities
 * 40 to 92: 14.7 at most, but for one that leaves pixels out instead of averaging them (25). Retouches of 2 % of the long edge begin
 * about there.
 */
export const SAME_UP_TO = 16

/** Least difference that is surely a change, ΔE. @choice half as much again as resampling makes at most; what is between is left to the eye. */
export const CHANGED_FROM = 22

/**
 * Largest difference of a preview without a profile that may merely be in another color space, ΔE.
 * @tuned on the same portraits: Adobe RGB taken for sRGB gives up to 14.4, a conversion to gray 28 in the middle.
 */
export const SAME_TONES_UP_TO = 16

/** What differs between a preview and a copy of the picture made as small. */
export function compareAligned(preview: LabPlanes, copy: LabPlanes, width: number, height: number): Aligned {
  const mapped = mapColors(fitColors(copy, preview), copy)
  const changes = findChanges(preview, mapped, width, height)
  return {
    tones: percentile90(distances(copy, mapped)),
    largest: changes.reduce((most, value) => Math.max(most, value), 0),
    changed: regionOf(changes, width, height),
  }
}

/** Share of the pixels whose distance is told. @choice no source: what is left over may be the frame's edge and what was retouched. */
const MOST = 0.9

function percentile90(values: Float32Array): number {
  return Float32Array.from(values).sort()[Math.floor(MOST * (values.length - 1))] ?? 0
}

function regionOf(changes: Float32Array, width: number, height: number): Changed | null {
  let count = 0
  let [left, top, right, bottom] = [width, height, 0, 0]
  for (const [i, change] of changes.entries()) {
    if (change < CHANGED_FROM) continue
    count++
    const x = i % width
    const y = Math.floor(i / width)
    left = Math.min(left, x)
    right = Math.max(right, x + 1)
    top = Math.min(top, y)
    bottom = Math.max(bottom, y + 1)
  }
  return count === 0 ? null : { pct: (100 * count) / changes.length, left, top, right, bottom }
}
