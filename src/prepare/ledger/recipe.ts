import { createHash } from 'node:crypto'
import type { PrepareSetting } from '../../brand-spec/prepare-setting.ts'
import type { PlannedFile } from '../planning/plan.ts'

/**
 * Version of how files are made.
 * @choice counted up whenever the same plan gives other pixels or other metadata.
 */
const RECIPE_VERSION = 6

/** Hash of all that decides what a file is like. */
export function recipeOf(
  { master, order, turnDeg, crop, size, labels, isLossless }: PlannedFile,
  { tiff, sharpening, intent }: PrepareSetting,
): string {
  const { saving, format } = order
  const facts = [
    RECIPE_VERSION,
    isLossless,
    master.measured.sha256,
    turnDeg,
    crop,
    size,
    saving,
    format,
    labels,
    tiff ?? 'lzw',
    ...(isLossless || !sharpening ? [] : [sharpening]),
    ...(isLossless || !intent ? [] : [intent]),
  ]
  return createHash('sha256').update(JSON.stringify(facts)).digest('hex')
}
