import { LEAST_LIGHT, LINEAR_LIGHT } from '../../../color/transfer.ts'
import { LUMINANCE, tonesIn } from '../../../imaging/luminance.ts'
import { pixelsAt } from '../../../imaging/pixels-at.ts'
import { everyNthOf, type Outline, runsInside } from '../../../imaging/polygon.ts'
import type { RgbPicture } from '../../../imaging/rgb-picture.ts'
import { overRed } from '../../../kernels/tones.ts'
import { quantile } from '../../../numbers/quantile.ts'
import type { LocatedFace } from '../../face/find-faces.ts'
import { CLIPPED } from '../../schema/finish.ts'
import type { Doubt, Face, Finish, SkinPart } from '../../schema/measurements.ts'
import { perhapsSkinParts, skinParts } from './skin-parts.ts'

export type Clipping = Pick<Finish, 'clippedHighlightPct' | 'clippedShadowPct' | 'clipping'>

/** Fewest pixels of skin that are a sample of a face. @choice no source: one clipped pixel is a third of a percent then. */
const LEAST_PIXELS = 300
/** Which pixels of a row tell a part's color. @choice one in three is enough. */
const EVERY = 3
// Black hair falls over it: clipped hair is no fault, so shadows are looked for elsewhere.
const FRINGED: SkinPart = 'forehead'

interface Clipped {
  readonly part: SkinPart
  readonly pixels: number
  readonly highlights: number
  readonly shadows: number
}

/**
 * How far the color of a part may be off that of the skin to be skin itself: blue over red, and luminance in stops.
 * @choice no source: bare skin of one face differs by less, hair, beards and cloth by more.
 */
const SKIN_LIKE = { blue: 0.15, stops: 1.5 } as const

/** Quantile at which a part's color is compared. @choice the lower quartile, since a burnt-out spot may take half of a part. */
const UNBURNT = 0.25

/**
 * Share of face skin with a red, green or blue code at either end of the scale (ANSI/NIST-ITL 1-2011 Update 2013,
 * Annex E.3.6: no saturation on facial skin): highlights over forehead, nose, both cheeks and cheekbones and the chin together, as far
 * as they are bare, shadows over nose and cheeks; and the part that is clipped most.
 * @param located the face in pixels of `picture`
 */
export function measureClipping(picture: RgbPicture, located: LocatedFace, face: Face): Clipping {
  const clipped = ([part, runs]: readonly [SkinPart, readonly number[]]): Clipped => ({
    part,
    ...countClipped(picture, runs),
  })
  const sure = runsOf(picture, skinParts(located))
  const skin = colorOf(
    picture,
    sure.flatMap(([, runs]) => runs),
  )
  const bare = runsOf(picture, perhapsSkinParts(located)).filter(([, runs]) =>
    isAlike(colorOf(picture, runs), skin),
  )
  const always = sure.map(clipped)
  const parts = [...always, ...bare.map(clipped)]
  const unfringed = always.filter(({ part }) => part !== FRINGED)
  if (sum(unfringed, 'pixels') < LEAST_PIXELS)
    return unknownClipping([...new Set<Doubt>([...face.doubts, 'skin-too-small'])])
  return {
    clippedHighlightPct: (100 * sum(parts, 'highlights')) / sum(parts, 'pixels'),
    clippedShadowPct: (100 * sum(unfringed, 'shadows')) / sum(unfringed, 'pixels'),
    clipping: {
      highlightPart: mostClipped(parts, 'highlights'),
      shadowPart: mostClipped(unfringed, 'shadows'),
      confidence: face.confidence,
      doubts: face.doubts,
    },
  }
}

type Runs = readonly (readonly [SkinPart, readonly number[]])[]

function runsOf({ width, height }: RgbPicture, parts: ReadonlyMap<SkinPart, Outline>): Runs {
  return [...parts].map(([part, outline]) => [part, runsInside(outline, width, height)])
}

interface PartColor {
  /** Blue over red, in linear light. */
  readonly blue: number
  readonly luminance: number
}

/** The color of a part where nothing is burnt out; 0 for no pixels. */
function colorOf(picture: RgbPicture, runs: readonly number[]): PartColor {
  const pixels = pixelsAt(picture, everyNthOf(runs, EVERY))
  return {
    blue: quantile(overRed(pixels, 2, LINEAR_LIGHT, LEAST_LIGHT), UNBURNT),
    luminance: quantile(tonesIn(pixels, LUMINANCE), UNBURNT),
  }
}

function isAlike(part: PartColor, skin: PartColor): boolean {
  const light = (color: PartColor) => Math.log2(Math.max(color.luminance, LEAST_LIGHT))
  return (
    Math.abs(part.blue - skin.blue) <= SKIN_LIKE.blue &&
    Math.abs(light(part) - light(skin)) <= SKIN_LIKE.stops
  )
}

/** What stands in place of the shares when there is no skin to measure. */
export function unknownClipping(doubts: Doubt[]): Clipping {
  return {
    clippedHighlightPct: null,
    clippedShadowPct: null,
    clipping: { highlightPart: null, shadowPart: null, confidence: 0, doubts },
  }
}

/** @param runs of pixels, as {@link runsInside} tells them */
function countClipped({ data }: RgbPicture, runs: readonly number[]): Omit<Clipped, 'part'> {
  let pixels = 0
  let highlights = 0
  let shadows = 0
  const { high, low } = CLIPPED
  for (let k = 0; k < runs.length; k += 2) {
    const from = runs[k] as number
    const to = runs[k + 1] as number
    pixels += to - from
    for (let at = 3 * from; at < 3 * to; at += 3) {
      const r = data[at] as number
      const g = data[at + 1] as number
      const b = data[at + 2] as number
      if (r >= high || g >= high || b >= high) highlights++
      if (r <= low || g <= low || b <= low) shadows++
    }
  }
  return { pixels, highlights, shadows }
}

/** The part with the most clipped pixels; null when none is clipped. */
function mostClipped(parts: readonly Clipped[], end: 'highlights' | 'shadows'): SkinPart | null {
  const [most] = [...parts].sort((a, b) => b[end] - a[end])
  return most && most[end] > 0 ? most.part : null
}

function sum(parts: readonly Clipped[], key: 'pixels' | 'highlights' | 'shadows'): number {
  return parts.reduce((total, part) => total + part[key], 0)
}
