import { powersAt } from '../../../numbers/powers-at.ts'

/** Frequencies that blocks of 16 px have and blocks of 8 px have not, cycles per px. @source odd multiples of 1/16. */
const OF_16 = [3 / 16, 5 / 16, 7 / 16]

/** Frequencies that both have, cycles per px. @source multiples of 1/8. */
const OF_8 = [2 / 8, 3 / 8]

/**
 * Power of the first, as a share of the second's, from which on the blocks have 16 px.
 * @tuned on 20 photographs, softened by 0 to 2 px and saved anew in blocks of color 16 px wide: at most 0.2; made twice as large 0.3 and more in 12 of 20
 */
const DOUBLED = 0.3

/**
 * Whether the blocks of an earlier JPEG were made twice as large. Their multiples of 1/16 are weighed apart: blocks of color, twice as wide as
 * those of lightness, leave faint ones in pictures at their own size.
 * @param rhythms across and down
 */
export function areBlocksDoubled(rhythms: readonly Float64Array[]): boolean {
  return rhythms.every((rhythm) => {
    const powers = powersAt(rhythm, [...OF_16, ...OF_8])
    const own = Math.max(...powers.subarray(0, OF_16.length))
    return own > 0 && own >= DOUBLED * Math.max(...powers.subarray(OF_16.length))
  })
}
