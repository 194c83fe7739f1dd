/**
 * Weighted sum of red, green and blue: relative luminance where they are linear light, luma where they are codes, in the
 * unit of the three.
 */
export function lumaOf(red: number, green: number, blue: number): number {
  return RED * red + GREEN * green + BLUE * blue
}

/** @source ITU-R BT.709-6, item 3.2; IEC 61966-2-1:1999 (sRGB) has the same primaries and so the same weights. */
const RED = 0.2126
/** @source as RED */
const GREEN = 0.7152
/** @source as RED */
const BLUE = 0.0722
