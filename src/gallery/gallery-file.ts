import { MEASURER_VERSION } from '../measure/schema/measurements.ts'
import type { GalleryPortrait } from '../rules/contract/delivery-rule.ts'
import { byCodePoint } from '../text/code-points.ts'
import { fitsGallery } from './fits-gallery.ts'

/** The text of a gallery file, one portrait a line; sorted, so that the order tells nothing of who is who. */
export function galleryText(portraits: readonly GalleryPortrait[]): string {
  const lines = portraits
    .map(({ deliverable, traits }) => JSON.stringify({ deliverable, traits: rounded(traits) }))
    .sort()
  const head = `{"kind": "portrait gallery", "measurer": ${MEASURER_VERSION}, "portraits": [`
  return `${head}\n${lines.join(',\n')}\n]}\n`
}

/**
 * A gallery without some portraits, which are found by their numbers: the file tells nobody's name.
 * @returns what is left, and the places in `gone` of those that it does not have
 */
export function withoutPortraits(
  gallery: readonly GalleryPortrait[],
  gone: readonly GalleryPortrait[],
): { left: GalleryPortrait[]; unknown: number[] } {
  const left = [...gallery]
  const unknown: number[] = []
  for (const [index, one] of gone.entries()) {
    const at = left.findIndex((other) => lineOf(other) === lineOf(one))
    if (at < 0) unknown.push(index)
    else left.splice(at, 1)
  }
  return { left, unknown }
}

function lineOf({ deliverable, traits }: GalleryPortrait): string {
  const known = Object.entries(rounded(traits)).filter(([, value]) => value !== null)
  return JSON.stringify([deliverable, ...known.sort(([a], [b]) => byCodePoint(a, b))])
}

/** To a thousandth: finer than anything that is measured. */
function rounded(traits: GalleryPortrait['traits']): GalleryPortrait['traits'] {
  return Object.fromEntries(
    Object.entries(traits).map(([id, value]) => [
      id,
      value === null ? null : Math.round(value * 1000) / 1000,
    ]),
  )
}

/** Reads a gallery file, or says what is wrong with it in a sentence. */
export function readGallery(text: string): { portraits: GalleryPortrait[] } | { problem: string } {
  let data: unknown
  try {
    data = JSON.parse(text)
  } catch {
    return { problem: `This is not JSON. ${MAKE}` }
  }
  if (!fitsGallery(data)) return { problem: `This is not a gallery file. ${MAKE}` }
  if (data.measurer !== MEASURER_VERSION)
    return {
      problem: `The gallery has version ${data.measurer} of the measurements, and this is version ${MEASURER_VERSION}: the numbers can't be compared. ${MAKE}`,
    }
  return { portraits: data.portraits.map(({ deliverable, traits }) => ({ deliverable, traits })) }
}

const MAKE = 'Make it again with: portrait-gate gallery FOLDER --output gallery.json'
