import type { Size } from '../../framing/ask.ts'
import { missingAround, totalMissing } from '../../framing/missing.ts'
import type { DeliveredFile } from '../contract/delivery-rule.ts'
import { type CropFix, cropFix, extendableSides } from '../judging/crop-fix.ts'
import type { Miss } from './set-misses.ts'
import type { TraitId } from './set-traits.ts'

const FRAMING: readonly TraitId[] = ['headroom', 'eye-line', 'head-height', 'centering']

/** The center of the frame, % of its width. @choice definition. */
const CENTER = 50

/**
 * The crop that brings the framing of a file to the medians of its set, where it misses them; what it meets stays as it is. The
 * one that a rule on the file gives comes first. Null when the framing is not missed.
 */
export function setCrop({ measured, fileCrop }: DeliveredFile, misses: readonly Miss[]): CropFix | null {
  const { head, widthPx, heightPx } = measured
  const isMissed = misses.some(({ trait }) => FRAMING.includes(trait.id))
  if (!isMissed || !head || !widthPx || !heightPx) return null
  const frame = { widthPx, heightPx }
  const given = fileCrop?.crop ?? null
  const keepsFrame = given !== null && sameSize(given, frame) && !given.missing
  if (fileCrop && !keepsFrame) return { fix: `Crop it as ${fileCrop.rule} says, then check again.` }
  const { headHeightPct, eyeLinePct, offCenterPct } = head
  const wanted = (id: TraitId, own: number | null) =>
    misses.find(({ trait }) => trait.id === id)?.set.median ?? own ?? 0
  const height = wanted('head-height', headHeightPct)
  const scale = height > 0 ? (headHeightPct ?? height) / height : 1
  const size = { widthPx: Math.round(scale * widthPx), heightPx: Math.round(scale * heightPx) }
  // Where the eyes are in the frame, less where they are to be in the crop.
  const place = (own: number | null, aim: number, edge: number, cropEdge: number) =>
    Math.round(((own ?? 0) * edge - aim * cropEdge) / 100)
  const box = {
    leftPx: place(
      CENTER + (offCenterPct ?? 0),
      CENTER + wanted('centering', offCenterPct),
      widthPx,
      size.widthPx,
    ),
    topPx: place(eyeLinePct, wanted('eye-line', eyeLinePct), heightPx, size.heightPx),
    ...size,
  }
  const missing = missingAround(box, frame)
  const scaleTo = given?.scaleTo ?? frame
  const crop = {
    ...box,
    ...(!sameSize(size, scaleTo) && { scaleTo }),
    ...(totalMissing(missing) > 0 && { missing }),
  }
  return cropFix(crop, { frame, tight: false, levelFirst: false, extendable: extendableSides(measured) })
}

function sameSize(a: Size, b: Size): boolean {
  return a.widthPx === b.widthPx && a.heightPx === b.heightPx
}
