import type { RgbPicture } from '../../../imaging/rgb-picture.ts'
import { union } from '../../../kernels/masks.ts'
import type { LocatedFace } from '../../face/find-faces.ts'
import { type EyeLevels, skinAround, whiteOf } from './eye-levels.ts'
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

/** One eye, and how bright it is where nothing is reflected. */
export interface SeenEye {
  readonly patch: EyePatch
  readonly levels: EyeLevels
}

/** What shines before it, as masks over its patch. */
export interface EyeReflections extends SeenEye {
  /** Reflections that are wide enough to be no rims, hairs or lashes, around the open eye and over it. */
  readonly glare: Uint8Array
  /** The same with all thin ones: also neon tubes, the bars of a window, glints on rims. */
  readonly all: Uint8Array
}

/** The eye at the left of the frame, then the one at the right. */
type Both<T> = readonly [T, T]

export interface Reflections {
  readonly skin: SkinColor
  /** Skin is as pale as reflections are, so that only those of another color, or very bright, are seen. */
  readonly skinColorless: boolean
  /** What is seen may be make-up on the lids. */
  readonly mayBeMakeUp: boolean
  /** Inter-eye distance in px, as if the face were turned to the camera. */
  readonly eyeDistance: number
  readonly seen: Both<SeenEye>
  /** What shines before them; looked for when it is asked for, since before naked eyes nobody asks. */
  readonly eyes: Both<EyeReflections>
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
    const white = whiteOf(patch)
    const found = reflectionsAround(picture, patch, skin, white.usualWhite, eyeDistance)
    return { patch, ...found, levels: { ...white, skin: skinAround(patch, found.wide, skin) } }
  }
  const both = [around(left), around(right)] as const
  const whiteOverSkin = Math.min(...both.map(({ levels }) => levels.white / Math.max(levels.skin, DARKEST)))
  const surroundings = { skin, whiteOverSkin, eyeDistance }
  const inside = ({ patch, wide, levels }: (typeof both)[number]) =>
    reflectionsInside(patch, wide, levels, surroundings)
  const merged = (eye: (typeof both)[number]): EyeReflections => {
    const over = inside(eye)
    return { ...eye, glare: union(eye.wide, over), all: union(eye.all, over) }
  }
  let eyes: Both<EyeReflections> | null = null
  return {
    skin,
    skinColorless: skin.blue > PALEST_SKIN,
    mayBeMakeUp: mayBeMakeUp(both, skin, inside),
    eyeDistance,
    seen: both,
    get eyes() {
      eyes ??= [merged(both[0]), merged(both[1])]
      return eyes
    },
  }
}
