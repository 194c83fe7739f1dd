import { type Lab, labPlanes } from '../../../color/lab.ts'
import { valuesAt } from '../../../imaging/pixel-indexes.ts'
import { pixelsAt } from '../../../imaging/pixels-at.ts'
import { type Outline, runsInside, sampleOf } from '../../../imaging/polygon.ts'
import type { RgbPicture } from '../../../imaging/rgb-picture.ts'
import { betweenRanks } from '../../../numbers/between-ranks.ts'
import { median } from '../../../numbers/quantile.ts'
import type { LocatedFace } from '../../face/find-faces.ts'
import { doubted } from '../../schema/confidence.ts'
import type { Doubt, Face, SkinPart, SkinTint } from '../../schema/measurements.ts'
import { perhapsSkinParts, skinParts } from './skin-parts.ts'

/**
 * The parts whose color is read.
 * @choice bare on nearly everybody and of one color; the nose is redder and shines, hair or a beard lies on the others
 */
const PARTS: readonly SkinPart[] = [
  'forehead',
  'left-cheek',
  'right-cheek',
  'left-cheekbone',
  'right-cheekbone',
]

/** Fewest parts that tell a color. @choice of three the median leaves out one that hair or a lens covers */
const LEAST_PARTS = 3

/** Fewest pixels of a part. @choice fewer are left to noise, no source. */
const LEAST_PIXELS = 60

/** Pixels of a part that are enough. @choice the median of so many is good to a twentieth of their spread */
const SAMPLES = 1000

/** Between which shares of a part's pixels, from dark to light, its color is read. @choice the middle half: white shine is above, shade and hair below */
const MIDDLE = { from: 0.25, to: 0.75 } as const

/**
 * Error of the hue where all parts of a face agree, degrees.
 * @tuned on 51 portraits in one light: parts of one face scatter by 3° in the median, 5.5° on one in ten; in colored light by 20° and more
 */
const LEAST_HUE_ERROR_DEG = 4

/** Degrees in a turn. @choice definition. */
const TURN_DEG = 360

/**
 * The color of bare skin, the median of forehead, cheeks and cheekbones, without what shines white on it.
 * @param located the face in pixels of `picture`
 */
export function measureSkinTint(picture: RgbPicture, located: LocatedFace, face: Face): SkinTint {
  const outlines = new Map([...skinParts(located), ...perhapsSkinParts(located)])
  const colors = PARTS.flatMap((part) => {
    const outline = outlines.get(part)
    return (outline && colorOf(picture, outline)) ?? []
  })
  if (colors.length < LEAST_PARTS)
    return unknownSkinTint([...new Set<Doubt>([...face.doubts, 'skin-too-small'])])
  const lab = medianOf(colors)
  const hueDeg = hueOf(lab)
  return {
    lab,
    hueDeg,
    hueErrorDeg: Math.hypot(
      LEAST_HUE_ERROR_DEG,
      Math.hypot(...colors.map((color) => turnBetween(hueDeg, hueOf(color)))) / Math.sqrt(colors.length),
    ),
    confidence: doubted(face.confidence, face.doubts),
    doubts: face.doubts,
  }
}

/** What stands in place of it where no skin can be measured. */
export function unknownSkinTint(doubts: Doubt[]): SkinTint {
  return { lab: null, hueDeg: null, hueErrorDeg: null, confidence: 0, doubts }
}

/** Null for a part of too few pixels. */
function colorOf(picture: RgbPicture, outline: Outline): Lab | null {
  const sample = sampleOf(runsInside(outline, picture.width, picture.height), SAMPLES)
  const count = sample.length
  if (count < LEAST_PIXELS) return null
  const { L, a, b } = labPlanes(pixelsAt(picture, sample).data, count)
  const from = Math.floor(MIDDLE.from * count)
  const { indexes } = betweenRanks(L, from, Math.ceil(MIDDLE.to * count) - 1)
  const middleOf = (plane: Float32Array) => median(valuesAt(plane, indexes))
  return { L: middleOf(L), a: middleOf(a), b: middleOf(b) }
}

/** Of each channel by itself. */
function medianOf(colors: readonly Lab[]): Lab {
  return {
    L: median(colors.map(({ L }) => L)),
    a: median(colors.map(({ a }) => a)),
    b: median(colors.map(({ b }) => b)),
  }
}

/** CIE hue angle, degrees. @source CIE 15:2004, h_ab */
function hueOf({ a, b }: Lab): number {
  const degrees = (Math.atan2(b, a) * TURN_DEG) / (2 * Math.PI)
  return degrees < 0 ? degrees + TURN_DEG : degrees
}

/** The way from one hue to another, degrees, at most half a turn to either side. */
function turnBetween(from: number, to: number): number {
  return ((((to - from + TURN_DEG / 2) % TURN_DEG) + TURN_DEG) % TURN_DEG) - TURN_DEG / 2
}
