import type { RgbPicture } from '../../../imaging/rgb-picture.ts'
import { union } from '../../../kernels/masks.ts'
import type { LocatedFace } from '../../face/find-faces.ts'
import { type EyeLevels, eyeLevels } from './eye-levels.ts'
import { type EyePatch, eyePatch } from './eye-patch.ts'
import { eyeDistanceOf, eyeRegions } from './eye-region.ts'
import { mayBeMakeUp } from './made-up.ts'
import { reflectionsAround } from './reflections-around.ts'
import { reflectionsInside } from './reflections-inside.ts'
import { type SkinColor, skinColor } from './skin-color.ts'

/** Luminance that keeps a ratio finite, relative to white. @choice less than half of the least code above black, no source. */
const DARKEST = 1e-4

/**
 * Blue over red beyond which a reflection can't be told from skin: a picture in gray, a colored light.
 * @choice no source: a reflection of a white light has a ratio of 1.
 */
const PALEST_SKIN = 0.8

/** What shines before one eye, as masks over its patch. */
export interface EyeReflections {
  readonly patch: EyePatch
  readonly levels: EyeLevels
  /** Reflections that are wide enough to be no rims, hairs or lashes, around the open eye and over it. */
  readonly glare: Uint8Array
  /** The same with all thin ones: also neon tubes, the bars of a window, glints on rims. */
  readonly all: Uint8Array
}

export interface Reflections {
  readonly skin: SkinColor
  /** Skin is as pale as reflections are, so that only those of another color, or very bright, are seen. */
  readonly skinColorless: boolean
  /** What is seen may be make-up on the lids. */
  readonly mayBeMakeUp: boolean
  /** Inter-eye distance in px, as if the face were turned to the camera. */
  readonly eyeDistance: number
  /** The eye at the left of the frame, then the one at the right. */
  readonly eyes: readonly [EyeReflections, EyeReflections]
}

/**
 * Finds the reflections before both eyes, catchlights left out.
 * @param located the face in pixels of `picture`
 * @returns null when an eye or all of the skin lies outside the picture
 */
export function seeReflections(picture: RgbPicture, located: LocatedFace): Reflections | null {
  const eyeDistance = eyeDistanceOf(located)
  const skin = skinColor(picture, located)
  if (!skin) return null
  const [leftRegion, rightRegion] = eyeRegions(located)
  const left = eyePatch(picture, leftRegion)
  const right = eyePatch(picture, rightRegion)
  if (!left || !right) return null
  const around = (patch: EyePatch) => {
    const found = reflectionsAround(patch, skin, eyeDistance)
    return { patch, ...found, levels: eyeLevels(patch, found.wide, skin) }
  }
  const both = [around(left), around(right)] as const
  const whiteOverSkin = Math.min(...both.map(({ levels }) => levels.white / Math.max(levels.skin, DARKEST)))
  const whole = (eye: (typeof both)[number]) => ({
    ...eye,
    inside: reflectionsInside(eye.patch, eye.wide, eye.levels, { skin, whiteOverSkin, eyeDistance }),
  })
  const eyes = [whole(both[0]), whole(both[1])] as const
  const merged = ({ patch, levels, wide, all, inside }: (typeof eyes)[number]): EyeReflections => ({
    patch,
    levels,
    glare: union(wide, inside),
    all: union(all, inside),
  })
  return {
    skin,
    skinColorless: skin.blue > PALEST_SKIN,
    mayBeMakeUp: mayBeMakeUp(eyes, skin),
    eyeDistance,
    eyes: [merged(eyes[0]), merged(eyes[1])],
  }
}
