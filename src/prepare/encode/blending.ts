import type { Finished } from '../pixels/resample.ts'
import { areasOf, lumaErrors, SIDE } from './luma.ts'

/**
 * Two versions of a picture in one: the areas where the coarse one is farthest off as they should be, the others as the coarse one has them. Encoded with
 * the quality that the coarse one was encoded with, those come out as they were, so that the bytes grow steadily with the share.
 * @returns the picture with the areas of a share 0..1 as they should be
 */
export function blending(wanted: Finished, coarse: Finished): (share: number) => Finished {
  const errors = lumaErrors(coarse, wanted)
  const worstFirst = [...errors.keys()].sort((a, b) => (errors[b] as number) - (errors[a] as number))
  const { columns } = areasOf(wanted)
  const { channels, widthPx, heightPx } = wanted
  return (share) => {
    const codes = Uint8Array.from(coarse.codes)
    for (const area of worstFirst.slice(0, Math.round(share * worstFirst.length))) {
      const left = SIDE * (area % columns)
      const top = SIDE * Math.floor(area / columns)
      const width = Math.min(SIDE, widthPx - left)
      for (let y = top; y < Math.min(top + SIDE, heightPx); y++) {
        const at = channels * (y * widthPx + left)
        codes.set(wanted.codes.subarray(at, at + channels * width), at)
      }
    }
    return { ...wanted, codes }
  }
}
