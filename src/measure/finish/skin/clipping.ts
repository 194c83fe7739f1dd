import { runsInside } from '../../../imaging/polygon.ts'
import type { RgbPicture } from '../../../imaging/rgb-picture.ts'
import type { LocatedFace } from '../../face/find-faces.ts'
import { CLIPPED } from '../../schema/finish.ts'
import type { Doubt, Face, Finish, SkinPart } from '../../schema/measurements.ts'
import { skinParts } from './skin-parts.ts'

export type Clipping = Pick<Finish, 'clippedHighlightPct' | 'clippedShadowPct' | 'clipping'>

/** Fewest pixels of skin that are a sample of a face. @choice no source: one clipped pixel is a third of a percent then. */
const LEAST_PIXELS = 300
// Black hair falls over it: clipped hair is no fault, so shadows are looked for elsewhere.
const FRINGED: SkinPart = 'forehead'

interface Clipped {
  readonly part: SkinPart
  readonly pixels: number
  readonly highlights: number
  readonly shadows: number
}

/**
 * Share of face skin with a red, green or blue code at either end of the scale (ANSI/NIST-ITL 1-2011 Update 2013,
 * Annex E.3.6: no saturation on facial skin): highlights over forehead, nose and both cheeks together, shadows over nose
 * and cheeks; and the part that is clipped most.
 * @param located the face in pixels of `picture`
 */
export function measureClipping(picture: RgbPicture, located: LocatedFace, face: Face): Clipping {
  const parts: Clipped[] = []
  for (const [part, outline] of skinParts(located)) {
    parts.push({ part, ...countClipped(picture, runsInside(outline, picture.width, picture.height)) })
  }
  const unfringed = parts.filter(({ part }) => part !== FRINGED)
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
