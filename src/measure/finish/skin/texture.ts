import { blurredAt } from '../../../imaging/gaussian.ts'
import { patchAround } from '../../../imaging/patch.ts'
import { type Outline, pixelsInside } from '../../../imaging/polygon.ts'
import type { RgbPicture } from '../../../imaging/rgb-picture.ts'
import { contrasts } from '../../../kernels/convolution.ts'
import { upperMedian } from '../../../numbers/quantile.ts'
import { MAD_TO_SIGMA } from '../../../numbers/robust.ts'
import type { LocatedFace } from '../../face/find-faces.ts'
import { doubted } from '../../schema/confidence.ts'
import { FOCUS_EYE_DISTANCE_PX, TEXTURE_BAND_PX } from '../../schema/finish.ts'
import { SKIN_TEXTURE_LEAST_EYE_DISTANCE_PX } from '../../schema/gates.ts'
import type { Doubt, Face, Finish, SkinPart } from '../../schema/measurements.ts'
import { perhapsSkinParts, skinParts } from './skin-parts.ts'

export type SkinTexture = Pick<Finish, 'skinTexturePct' | 'texture'>

/** Blurs between which the texture lies, and the finest structure from which grain is told, an octave below; sigma in px at the inter-eye distance of focus. @choice definition. */
const SIGMAS = { finest: TEXTURE_BAND_PX.fine / 2, ...TEXTURE_BAND_PX } as const

/** Power of white noise between the coarser two of them, as a share of that between the finer two. @source each is twice the last: power goes by the square of the frequency. */
const NOISE_SHARE = 0.25

/** Parts that are read. @choice bare on most people; the nose shines, and chins have beards. */
const PARTS: readonly SkinPart[] = [
  'forehead',
  'left-cheek',
  'right-cheek',
  'left-cheekbone',
  'right-cheekbone',
]

/** How much of a part's outline is read, about its middle. @choice what lies beside a part must not reach in. */
const INNER = 0.85

/** Fewest pixels of a part. @choice fewer are left to noise, no source. */
const LEAST_PIXELS = 60

/** Least mean luma of a part, codes. @choice below it rounding to whole codes alone is a texture of 0.1 %. */
const LEAST_LUMA = 24

/** Most of the power that may be grain. @tuned on 19 of 51 studio portraits: of 17 read with and without added grain, all are sure with 2 codes, and left to a person with 4. */
const MOST_GRAIN = 0.5

/**
 * Contrast, grain and all, below which skin is smooth whatever of it is grain, share of the lightness.
 * @tuned on 51 studio portraits before any retouch, saved at quality 80 too, of which none has less than 0.28 % without its grain
 */
const SMOOTH = 0.002

/** Parts that are smoother than the one that counts. @choice one, which may be burnt out or not be skin; hair and beards are rougher than skin. */
const SMOOTHER = 1

/**
 * Fine texture of the skin: the contrast of what is 1 to 3 mm wide, without grain, percent of the lightness in codes. Grain is as strong at
 * all frequencies, and what it has in the finer octave tells how much of the texture it is; where it is most of very little, that is told with it, as the
 * most that the texture can be.
 * @param located the face in pixels of `picture`
 */
export function measureSkinTexture(picture: RgbPicture, located: LocatedFace, face: Face): SkinTexture {
  const [[leftX, leftY], [rightX, rightY]] = located.irises
  const eyeDistance = Math.hypot(rightX - leftX, rightY - leftY)
  const doubts = new Set<Doubt>(face.doubts)
  if (eyeDistance < SKIN_TEXTURE_LEAST_EYE_DISTANCE_PX)
    return unknownTexture([...doubts.add('skin-too-small')])
  const outlines = new Map([...skinParts(located), ...perhapsSkinParts(located)])
  const scale = eyeDistance / FOCUS_EYE_DISTANCE_PX
  const read = PARTS.flatMap((part) => textureOf(picture, outlines.get(part) ?? [], scale) ?? [])
  const bright = read.filter(({ luma }) => luma >= LEAST_LUMA)
  const one = bright.sort((a, b) => a.texture - b.texture)[SMOOTHER]
  if (!one)
    return unknownTexture([...doubts.add(read.length > SMOOTHER ? 'skin-too-dark' : 'skin-too-small')])
  if (one.grainShare > MOST_GRAIN) doubts.add('skin-grainy')
  return {
    skinTexturePct: 100 * one.texture,
    texture: { confidence: doubted(face.confidence, doubts), doubts: [...doubts] },
  }
}

/** What stands in place of the texture when no skin can be measured. */
export function unknownTexture(doubts: Doubt[]): SkinTexture {
  return { skinTexturePct: null, texture: { confidence: 0, doubts } }
}

interface Texture {
  /** Share of the luma. */
  readonly texture: number
  /** Share of the power that is grain. */
  readonly grainShare: number
  /** Median, codes. */
  readonly luma: number
}

/** The texture of one part; null when it has too few pixels. */
function textureOf(picture: RgbPicture, outline: Outline, scale: number): Texture | null {
  const [xs, ys] = [outline.map(([x]) => x), outline.map(([, y]) => y)]
  const [left, right, top, bottom] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)]
  const center = { x: (left + right) / 2, y: (top + bottom) / 2 }
  const beside = 2 * SIGMAS.coarse * scale
  const patch = patchAround(picture, center, {
    x: (right - left) / 2 + beside,
    y: (bottom - top) / 2 + beside,
  })
  const inner = outline.map(
    ([x, y]) =>
      [
        center.x + INNER * (x - center.x) - patch.left,
        center.y + INNER * (y - center.y) - patch.top,
      ] as const,
  )
  const pixels = pixelsInside(inner, patch.width, patch.height)
  if (pixels.length < LEAST_PIXELS) return null
  const sigmas = [SIGMAS.finest * scale, SIGMAS.fine * scale, SIGMAS.coarse * scale]
  const [finest, fine, coarse] = blurredAt(patch, sigmas, pixels) as [
    Float32Array,
    Float32Array,
    Float32Array,
  ]
  const all = contrastOf(fine, coarse, coarse) ** 2
  const grain = NOISE_SHARE * contrastOf(finest, fine, coarse) ** 2
  const told = grain > MOST_GRAIN * all && all < SMOOTH ** 2 ? 0 : Math.min(grain, all)
  return {
    texture: Math.sqrt(all - told),
    grainShare: all === 0 ? 0 : told / all,
    luma: upperMedian(coarse),
  }
}

/** Robust standard deviation of what two blurs differ by, as a share of the light. */
function contrastOf(one: Float32Array, other: Float32Array, light: Float32Array): number {
  return MAD_TO_SIGMA * upperMedian(contrasts(one, other, light))
}
