import { patchAround } from '../../../imaging/patch.ts'
import type { RgbPicture } from '../../../imaging/rgb-picture.ts'
import type { Place } from '../../face/irises/mesh-eyes.ts'
import { FOCUS_EYE_DISTANCE_PX } from '../../schema/finish.ts'
import { EYE_FOCUS_LEAST_EYE_DISTANCE_PX, HALO_LEAST_EYE_DISTANCE_PX } from '../../schema/gates.ts'
import type { Doubt, Face, Focus } from '../../schema/measurements.ts'
import type { Reflections } from '../glare/see-reflections.ts'
import { FINEST_PX } from './edge-spread-model.ts'
import { type Halo, haloOf } from './halo.ts'
import { hiddenEyes } from './hidden-eyes.ts'
import { areAlike, edgeSpread, type Spread, sharper } from './spread.ts'

/**
 * Half width and half height of what is looked at around an eye, shares of the inter-eye distance.
 * @tuned on the drawn and photographed eyes of the validation: lower, it holds too few of the low frequencies that wide blurs are read by,
 * and the rings of a pale iris pull the reading.
 */
const EYE = { x: 0.38, y: 0.3 }

/** The same around what is beside the eyes. @choice no source: no more than nose and ears take up. */
const BESIDE = { x: 0.3, y: 0.24 }

/** How far from the middle of an eye is looked at most, px. @choice more costs time and tells no more. */
const MOST_REACH_PX = 256

/** The tip of the nose, and the sides of the face in front of the ears. @source the 468-point face mesh of MediaPipe, canonical face model. */
const PLACES = { nose: [1], ear: [234, 454] } as const

/**
 * Spread below which something beside the eyes is told as sharper, times that of the eyes.
 * @tuned on drawn and photographed faces: hair and nostrils are built otherwise than eyes, and read up to a third too sharp.
 */
const SHARPER = 0.55

/**
 * Edge spread at the lids and irises, at full size. An eye behind reflections is not read.
 * @param irises and mesh of the face in pixels of the full-size picture
 * @param seen reflections before the eyes; null when none were looked for
 * @param halo whether halos are measured
 */
export function measureFocus(
  picture: RgbPicture,
  irises: readonly [Place, Place],
  mesh: readonly (readonly [number, number, number])[],
  face: Face,
  seen: Reflections | null = null,
  halo = true,
): Focus {
  const [left, right] = irises
  const eyeDistance = Math.hypot(right[0] - left[0], right[1] - left[1])
  const scale = eyeDistance / FOCUS_EYE_DISTANCE_PX
  if (eyeDistance < EYE_FOCUS_LEAST_EYE_DISTANCE_PX)
    return noFocus([...face.doubts, 'eyes-too-small-for-focus'])
  const patchAt = ([x, y]: readonly number[], reach: { x: number; y: number }) =>
    patchAround(
      picture,
      { x: x ?? 0, y: y ?? 0 },
      {
        x: Math.min(MOST_REACH_PX, reach.x * eyeDistance),
        y: Math.min(MOST_REACH_PX, reach.y * eyeDistance),
      },
    )
  const patches = [patchAt(left, EYE), patchAt(right, EYE)] as const
  const hidden = seen ? hiddenEyes(patches, seen) : ([false, false] as const)
  const spreadOf = (eye: 0 | 1) => (hidden[eye] ? null : edgeSpread(patches[eye], scale))
  const eyes = [spreadOf(0), spreadOf(1)] as const
  const sharperEye = sharper(...eyes)
  if (!sharperEye) {
    const why: Doubt[] = [
      ...(hidden[0] || hidden[1] ? (['eyes-behind-reflections'] as const) : []),
      ...(hidden[0] && hidden[1] ? [] : (['eyes-without-edges'] as const)),
    ]
    return noFocus([...face.doubts, ...why])
  }
  const finest = Math.sqrt(sharperEye.variance)
  const halos =
    halo && eyeDistance >= HALO_LEAST_EYE_DISTANCE_PX
      ? patches.flatMap((patch, eye) => {
          const { grain } = eyes[eye] ?? sharperEye
          return (hidden[eye] ? null : haloOf(patch, finest, Math.sqrt(grain), scale)) ?? []
        })
      : []
  const doubts: Doubt[] = [...face.doubts]
  const isSharper = (spread: Spread | null) =>
    spread !== null && !areAlike(spread, sharperEye) && Math.sqrt(spread.variance) < SHARPER * finest
  const beside = (Object.keys(PLACES) as (keyof typeof PLACES)[]).find(
    (place) =>
      SHARPER * finest > FINEST_PX &&
      PLACES[place].some((index) => isSharper(edgeSpread(patchAt(mesh[index] ?? [], BESIDE), scale))),
  )
  return {
    eyePx: finest / scale,
    leftPx: sigmaPx(eyes[0], scale),
    rightPx: sigmaPx(eyes[1], scale),
    finestEdgePx: finest,
    sharperPlace: beside ?? null,
    haloPct: meanOf(halos, 'height'),
    haloOfGrainPct: meanOf(halos, 'ofGrain'),
    confidence: face.confidence,
    doubts,
  }
}

function meanOf(halos: readonly Halo[], part: keyof Halo): number | null {
  return halos.length === 0 ? null : halos.reduce((sum, halo) => sum + halo[part], 0) / halos.length
}

function sigmaPx(spread: Spread | null, scale: number): number | null {
  return spread && Math.sqrt(spread.variance) / scale
}

/** For a picture in which the eyes can't be read. */
export function noFocus(doubts: readonly Doubt[]): Focus {
  return {
    eyePx: null,
    leftPx: null,
    rightPx: null,
    finestEdgePx: null,
    sharperPlace: null,
    haloPct: null,
    haloOfGrainPct: null,
    confidence: 0,
    doubts: [...doubts],
  }
}
