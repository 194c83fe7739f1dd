import type { LocatedFace } from '../find-faces.ts'
import { countOf, union, without } from '../masks.ts'
import type { Box, Doubt, EyeGlare, Face, Finish } from '../measurements.ts'
import type { RgbPicture } from '../rgb-picture.ts'
import { components } from './components.ts'
import { type EyePatch, eyePatch } from './eye-patch.ts'
import { eyeDistanceOf, eyeRegions } from './eye-region.ts'
import {
  type EyeLevels,
  eyeLevels,
  lightsOnIris,
  reflectionsAround,
  reflectionsInside,
} from './reflections.ts'
import { type SkinColor, skinColor } from './skin-color.ts'

export type LensGlare = Pick<Finish, 'lensGlarePct' | 'lensGlare'>

// Closer together, an iris is under 9 px wide and a catchlight hardly a pixel.
const LEAST_EYE_DISTANCE_PX = 50
// Beyond these one eye is seen from the side, or its lids hide it.
const MOST_TURN_DEG = 35
const MOST_NOD_DEG = 20
// Both regions this dark beside the skin: lenses that let no light through, where no eye can be seen.
const DARK_LENSES = 0.3
// Blue over red of skin this near to white (a picture in grey, a colored light): a reflection can't be told from it.
const PALEST_SKIN = 0.8

/**
 * Reflections of lights on the lenses before the eyes: at each eye the share of what a lens would cover. Reflections on
 * the eye itself (catchlights), the white of the eye, light skin and rims don't count. Without spectacles it is 0.
 * @param located the face in pixels of `picture`
 */
export function measureLensGlare(picture: RgbPicture, located: LocatedFace, face: Face): LensGlare {
  const eyeDistance = eyeDistanceOf(located)
  const skin = skinColor(picture, located)
  const [left, right] = eyeRegions(located).map((region) => eyePatch(picture, region))
  if (!left || !right || !skin) return unknownGlare([...new Set<Doubt>([...face.doubts, 'eyes-too-small'])])
  const eyes = [left, right].map((patch): Eye => {
    const around = reflectionsAround(patch, skin, eyeDistance)
    return { patch, around, levels: eyeLevels(patch, around, skin) }
  })
  const whiteOverSkin = Math.min(...eyes.map(({ levels }) => levels.white / Math.max(levels.skin, DARKEST)))
  const glares = eyes.map((eye) => glareOf(eye, skin, whiteOverSkin, eyeDistance, picture))
  const doubts = new Set<Doubt>(face.doubts)
  if (eyeDistance < LEAST_EYE_DISTANCE_PX) doubts.add('eyes-too-small')
  if (Math.abs(face.turnDeg ?? 0) > MOST_TURN_DEG || Math.abs(face.nodDeg ?? 0) > MOST_NOD_DEG)
    doubts.add('face-turned')
  if (eyes.every(({ levels }) => levels.skin < DARK_LENSES * skin.middle)) doubts.add('lenses-dark')
  if (skin.blue > PALEST_SKIN) doubts.add('skin-colorless')
  return {
    lensGlarePct: Math.max(...glares.map(({ glarePct }) => glarePct)),
    lensGlare: {
      left: glares[0] ?? null,
      right: glares[1] ?? null,
      confidence: doubts.size > 0 ? Math.min(face.confidence, 0.4) : face.confidence,
      doubts: [...doubts],
    },
  }
}

/** What stands in place of the glare when there are no eyes to measure. */
export function unknownGlare(doubts: Doubt[]): LensGlare {
  return { lensGlarePct: null, lensGlare: { left: null, right: null, confidence: 0, doubts } }
}

// Luminance that keeps a ratio finite.
const DARKEST = 1e-4

/** Pixels of the smallest catchlight, 1 square mm at 64 mm between the pupils; what is smaller may be noise. */
function leastLight(eyeDistance: number): number {
  return Math.max(1, Math.round((eyeDistance / 64) ** 2))
}

interface Eye {
  readonly patch: EyePatch
  readonly around: Uint8Array
  readonly levels: EyeLevels
}

function glareOf(
  { patch, around, levels }: Eye,
  skin: SkinColor,
  whiteOverSkin: number,
  eyeDistance: number,
  picture: RgbPicture,
): EyeGlare {
  const inside = reflectionsInside(patch, around, levels, skin, whiteOverSkin, eyeDistance)
  const glare = union(around, inside)
  const covered = countOf(glare)
  const whole = countOf(patch.around) + countOf(patch.opening)
  const lights = without(lightsOnIris(patch, levels), glare)
  return {
    glarePct: whole === 0 ? 0 : (100 * covered) / whole,
    box: covered === 0 ? null : boxOf(glare, patch, picture),
    catchlights: components(lights, patch.width, leastLight(eyeDistance)),
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
