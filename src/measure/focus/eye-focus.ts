import type { IrisCenter } from '../iris-model.ts'
import type { Doubt, Face, Focus } from '../measurements.ts'
import type { RgbPicture } from '../rgb-picture.ts'
import { patchAround } from './patch.ts'
import { type EdgeSpread, edgeSpreads, summary } from './spread.ts'

/** Inter-eye distance at which spreads are told, in pixels: recommended for portraits (ISO/IEC 39794-5, from memory). */
const EYE_DISTANCE = 240
// What is looked at, in inter-eye distances: half width and half height.
const EYE = { x: 0.38, y: 0.26 }
const BESIDE = { x: 0.3, y: 0.24 }
// Points of the face mesh: the tip of the nose, and the sides of the face in front of the ears.
const PLACES = { nose: [1], ear: [234, 454] } as const
// Eyes that differ by less than this share are in focus together, and are read as one.
const TOGETHER = 0.25
// Something beside the eyes must be sharper than they are by this factor to be told: less is within the error.
const SHARPER = 0.7
// Below this inter-eye distance in the file, lids and iris have too few pixels to be read.
const LEAST_EYE_DISTANCE_PX = 40

/**
 * Edge spread at the lids and irises, at full size.
 * @param irises and mesh of the face in pixels of the full-size picture
 */
export function measureFocus(
  picture: RgbPicture,
  irises: readonly [IrisCenter, IrisCenter],
  mesh: readonly (readonly [number, number, number])[],
  face: Face,
): Focus {
  const [left, right] = irises
  const eyeDistance = Math.hypot(right[0] - left[0], right[1] - left[1])
  const scale = eyeDistance / EYE_DISTANCE
  if (eyeDistance < LEAST_EYE_DISTANCE_PX) return noFocus([...face.doubts, 'eyes-too-small-for-focus'])
  const at = ([x, y]: readonly number[], reach: { x: number; y: number }) => {
    const around = { x: reach.x * eyeDistance, y: reach.y * eyeDistance }
    return edgeSpreads(patchAround(picture, { x: x ?? 0, y: y ?? 0 }, around), scale)
  }
  const eyes = irises.map((iris) => at(iris, EYE)) as [EdgeSpread[], EdgeSpread[]]
  const [leftPx, rightPx] = eyes.map(spreadPx)
  const sharper = sharperEye(eyes)
  if (sharper === null) return noFocus([...face.doubts, 'eyes-without-edges'])
  const doubts: Doubt[] = [...face.doubts]
  const beside = (Object.keys(PLACES) as (keyof typeof PLACES)[]).find((place) =>
    PLACES[place].some((index) => {
      const spread = spreadPx(at(mesh[index] ?? [], BESIDE))
      return spread !== null && spread < SHARPER * sharper
    }),
  )
  return {
    eyePx: sharper / scale,
    leftPx: leftPx === null || leftPx === undefined ? null : leftPx / scale,
    rightPx: rightPx === null || rightPx === undefined ? null : rightPx / scale,
    finestEdgePx: sharper,
    sharperPlace: beside ?? null,
    confidence: face.confidence,
    doubts,
  }
}

/** Spread of the sharper eye in pixels of the file; of both together when they are about alike; null when neither can be read. */
function sharperEye([left, right]: readonly [EdgeSpread[], EdgeSpread[]]): number | null {
  const a = spreadPx(left)
  const b = spreadPx(right)
  if (a === null || b === null) return a ?? b
  const together = Math.abs(a - b) <= TOGETHER * Math.min(a, b)
  return together ? summary([...left, ...right]) : Math.min(a, b)
}

function spreadPx(spreads: readonly EdgeSpread[]): number | null {
  return spreads.length === 0 ? null : summary(spreads)
}

/** For a picture in which the eyes can't be read. */
export function noFocus(doubts: readonly Doubt[]): Focus {
  return {
    eyePx: null,
    leftPx: null,
    rightPx: null,
    finestEdgePx: null,
    sharperPlace: null,
    confidence: 0,
    doubts: [...doubts],
  }
}
