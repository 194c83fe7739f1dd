import { brighter, common, countOf, meanOf, shareOf, union, valuesIn } from '../../../imaging/masks.ts'
import { open } from '../../../imaging/morphology.ts'
import { quantile } from '../../../numbers/quantile.ts'
import type { EyePatch } from './eye-patch.ts'
import { irisIsAside } from './iris-aside.ts'
import type { SkinColor } from './skin-color.ts'

// The limits here were found on drawn sitters of all ten Monk tones and on 25 photographs.
// Light that a lens throws back is counted from this share of white on.
const REFLECTED = 0.1
// How much paler than the sitter's palest skin a spot must be, so that lids and veins don't count.
const PALER = 1.15
// Whitest skin under which a share of white can still be told from it.
const LEAST_CONTRAST = { green: 0.2, blue: 0.15 }
// Make-up and the shadow of a socket are as pale, but dark beside the skin.
const LEAST_OF_SKIN = 0.5
// A warm light has the color of skin: it counts when it outshines all of it by far.
const OUTSHINES = 1.9
const BRIGHT = 0.5
// Half of the thickness under which a streak is a rim, a hair or a lash, in inter-eye distances.
const THIN = 0.01
// Share of the region from which a crescent counts; a wet lid margin stays below it.
const CRESCENT = 0.008

export interface Around {
  /** All that is paler or brighter than skin, thin or wide. */
  readonly all: Uint8Array
  /** The same without what is as thin as rims, hairs and lashes. */
  readonly wide: Uint8Array
}

/**
 * What a lens reflects around the open eye, as masks. Skin sends back less blue and green than red, in about the same
 * proportion wherever the light falls on it; a reflection adds the color of the light. So what exceeds the skin's own
 * proportion is the reflection's share (the dichromatic model of Shafer, Color Res. Appl. 10(4), 1985).
 * @param eyeDistance in px
 */
export function reflectionsAround(patch: EyePatch, skin: SkinColor, eyeDistance: number): Around {
  const mask = patch.around.slice()
  const [green, blue] = [PALER * skin.green, PALER * skin.blue]
  const perGreen = 1 / Math.max(LEAST_CONTRAST.green, 1 - green)
  const perBlue = 1 / Math.max(LEAST_CONTRAST.blue, 1 - blue)
  const leastBright = LEAST_OF_SKIN * skin.middle
  const glaring = Math.max(BRIGHT, OUTSHINES * skin.bright)
  for (let i = 0; i < mask.length; i++) {
    if (mask[i] === 0) continue
    const red = patch.red[i] as number
    const luminance = patch.luminance[i] as number
    const share = Math.max(
      ((patch.green[i] as number) - green * red) * perGreen,
      ((patch.blue[i] as number) - blue * red) * perBlue,
    )
    mask[i] = (share > REFLECTED && luminance > leastBright) || luminance > glaring ? 1 : 0
  }
  // Beside a reflection in the open eye a crescent of it may be all that lies on the lids: it is opened with its rest.
  const radius = thin(eyeDistance)
  const whole = open(union(mask, whiteIn(patch)), patch.width, patch.height, radius)
  const kept = common(mask, whole)
  const alone = open(mask, patch.width, patch.height, radius)
  return { all: mask, wide: countOf(kept) > CRESCENT * countOf(patch.around) ? kept : alone }
}

/** What in the open eye is as bright as its white. */
function whiteIn(patch: EyePatch): Uint8Array {
  const limit = LIKE_WHITE * quantile(whiteOf(patch), 0.75)
  return brighter(patch.opening, patch.luminance, limit)
}

// A spot in the eye is a reflection only when it is bright as such and brighter than the skin.
const LEAST_LUMINANCE = 0.4
// How much brighter than the white of the eye a light is, and how much darker a veil of one over the iris may be.
const OVER_WHITE = 1.05
const LIKE_WHITE = 0.9
// Lights on the iris are catchlights up to these shares of it: 16 square mm for two soft boxes, of 75 (inner) and 110.
const CATCHLIGHTS = 0.25
const VEIL = 0.35
// The rest of a glare that lies around the eye is about as bright.
const LIKE_AROUND = 0.85
// Share of the region around the eye from which a reflection there is taken to go on over the eye.
const WIDE = 0.02

/** What both eyes together tell of one: how bright its white and its skin are. */
export interface EyeLevels {
  /** 90th and 75th percentile of the luminance in the opening beside the iris. */
  readonly white: number
  readonly whiteUpper: number
  /** Median luminance around the eye without reflections. */
  readonly skin: number
}

export function eyeLevels(patch: EyePatch, around: Uint8Array, skin: SkinColor): EyeLevels {
  const beside = whiteOf(patch)
  const bare = valuesIn(patch.luminance, patch.around, around)
  return {
    white: quantile(beside, 0.9),
    whiteUpper: quantile(beside, 0.75),
    skin: bare.length > 20 ? quantile(bare, 0.5) : skin.middle,
  }
}

/**
 * What a lens reflects over the open eye, as a mask; nothing when all that shines there are catchlights.
 * @param whiteOverSkin luminance of the white of the eye over that of the skin around, at the eye where it is less
 */
export function reflectionsInside(
  patch: EyePatch,
  around: Uint8Array,
  levels: EyeLevels,
  skin: SkinColor,
  whiteOverSkin: number,
  eyeDistance: number,
): Uint8Array {
  const { width, height, opening, luminance } = patch
  const least = Math.max(LEAST_LUMINANCE, skin.middle)
  const lights = open(
    brighter(opening, luminance, Math.max(least, OVER_WHITE * whiteOverSkin * levels.skin)),
    width,
    height,
    thin(eyeDistance),
  )
  const likeWhite = Math.max(least, LIKE_WHITE * levels.whiteUpper)
  const veil = brighter(opening, luminance, likeWhite)
  const overIris =
    shareOf(lights, patch.innerIris) > CATCHLIGHTS && countOf(lights) > CATCHLIGHTS * countOf(patch.iris)
  const veiled = shareOf(veil, patch.innerIris) > VEIL
  // What shines there is white of the eye when the iris lies beside it.
  const aside = (veiled || overIris) && irisIsAside(patch, veiled ? veil : lights, levels.skin)
  if (veiled && !aside) return veil
  const near =
    countOf(around) > WIDE * countOf(patch.around)
      ? brighter(
          opening,
          luminance,
          Math.max(
            LIKE_AROUND * meanOf(luminance, around),
            aside ? OVER_WHITE * levels.white : LIKE_WHITE * levels.whiteUpper,
          ),
        )
      : null
  const hidden = overIris && !aside ? lights : null
  if (hidden && near) return union(hidden, near)
  return hidden ?? near ?? new Uint8Array(lights.length)
}

/** Where lights shine on the iris, brighter than the white of the eye. */
export function lightsOnIris({ innerIris, luminance }: EyePatch, { white }: EyeLevels): Uint8Array {
  const least = Math.max(OVER_WHITE * white, LEAST_LUMINANCE)
  return brighter(innerIris, luminance, least)
}

function whiteOf({ luminance, opening, iris }: EyePatch): Float32Array {
  return valuesIn(luminance, opening, iris)
}

function thin(eyeDistance: number): number {
  return Math.max(1, Math.round(THIN * eyeDistance))
}
