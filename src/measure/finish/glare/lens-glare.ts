import { regionsOf } from '../../../imaging/regions.ts'
import type { RgbPicture } from '../../../imaging/rgb-picture.ts'
import { countOf, without } from '../../../kernels/masks.ts'
import { doubted } from '../../schema/confidence.ts'
import {
  LENS_GLARE_LEAST_EYE_DISTANCE_PX,
  LENS_GLARE_MOST_NOD_DEG,
  LENS_GLARE_MOST_TURN_DEG,
} from '../../schema/gates.ts'
import type { Box, Doubt, EyeGlare, Face, Finish } from '../../schema/measurements.ts'
import type { EyePatch } from './eye-patch.ts'
import { lightsOnIris } from './reflections-inside.ts'
import type { Reflections, SeenEye } from './see-reflections.ts'

export type LensGlare = Pick<Finish, 'lensGlarePct' | 'lensGlare'>

/** Luminance around both eyes below which lenses let no eye be seen, share of that of the skin. @choice no source: darker lenses let next to no light through twice. */
const DARK_LENSES = 0.3

/** Inter-eye distance at which a pixel is the smallest catchlight, px. @choice 1 mm² at 64 mm between the pupils (Dodgson 2004: 63 mm in the mean); what is smaller may be noise. */
const CATCHLIGHT_PX = 64

/**
 * Reflections of lights on the lenses before the eyes: at each eye the share of what a lens would cover. Reflections on
 * the eye itself (catchlights), the white of the eye, light skin and rims don't count.
 * @param seen what was seen in `picture`; null when its eyes or its skin lie outside
 * @param bare surely no spectacles are worn, so that nothing is reflected
 */
export function measureLensGlare(
  picture: RgbPicture,
  seen: Reflections | null,
  face: Face,
  bare = false,
): LensGlare {
  if (!seen) return unknownGlare([...new Set<Doubt>([...face.doubts, 'eyes-too-small'])])
  const { skinColorless, mayBeMakeUp, eyeDistance } = seen
  // What shines around eyes that nothing is before is make-up, wet lids or pale skin.
  const glares = bare ? ([null, null] as const) : ([seen.eyes[0].glare, seen.eyes[1].glare] as const)
  const [left, right] = [0, 1].map((eye) =>
    glareOf(seen.seen[eye as 0 | 1], glares[eye as 0 | 1], eyeDistance, picture),
  ) as [EyeGlare, EyeGlare]
  const doubts = new Set<Doubt>(face.doubts)
  if (eyeDistance < LENS_GLARE_LEAST_EYE_DISTANCE_PX) doubts.add('eyes-too-small')
  if (
    Math.abs(face.turnDeg ?? 0) > LENS_GLARE_MOST_TURN_DEG ||
    Math.abs(face.nodDeg ?? 0) > LENS_GLARE_MOST_NOD_DEG
  )
    doubts.add('face-turned')
  if (areLensesDark(seen)) doubts.add('lenses-dark')
  if (skinColorless) doubts.add('skin-colorless')
  if (mayBeMakeUp) doubts.add('lids-made-up')
  return {
    lensGlarePct: Math.max(left.glarePct, right.glarePct),
    lensGlare: {
      left,
      right,
      confidence: doubted(face.confidence, doubts),
      doubts: [...doubts],
    },
  }
}

/** Whether both eyes lie behind something far darker than skin. */
export function areLensesDark({ skin, seen }: Reflections): boolean {
  return seen.every(({ levels }) => levels.skin < DARK_LENSES * skin.middle)
}

/** What stands in place of the glare when there are no eyes to measure. */
export function unknownGlare(doubts: Doubt[]): LensGlare {
  return { lensGlarePct: null, lensGlare: { left: null, right: null, confidence: 0, doubts } }
}

/** Pixels of the smallest catchlight. */
function leastLight(eyeDistance: number): number {
  return Math.max(1, Math.round((eyeDistance / CATCHLIGHT_PX) ** 2))
}

function glareOf(
  { patch, levels }: SeenEye,
  glare: Uint8Array | null,
  eyeDistance: number,
  picture: RgbPicture,
): EyeGlare {
  const covered = glare ? countOf(glare) : 0
  const whole = countOf(patch.around) + countOf(patch.opening)
  const lights = lightsOnIris(patch, levels)
  const least = leastLight(eyeDistance)
  return {
    glarePct: whole === 0 ? 0 : (100 * covered) / whole,
    box: glare && covered > 0 ? boxOf(glare, patch, picture) : null,
    catchlights: regionsOf(glare ? without(lights, glare) : lights, patch.width).filter(
      ({ length }) => length >= least,
    ).length,
  }
}

function boxOf(mask: Uint8Array, { left, top, width }: EyePatch, picture: RgbPicture): Box {
  let [fromX, fromY, toX, toY] = [Infinity, Infinity, 0, 0]
  for (let i = 0; i < mask.length; i++) {
    if (mask[i] === 0) continue
    const x = i % width
    const y = (i - x) / width
    fromX = Math.min(fromX, x)
    toX = Math.max(toX, x + 1)
    fromY = Math.min(fromY, y)
    toY = Math.max(toY, y + 1)
  }
  return {
    x: (left + fromX) / picture.width,
    y: (top + fromY) / picture.height,
    width: (toX - fromX) / picture.width,
    height: (toY - fromY) / picture.height,
  }
}
