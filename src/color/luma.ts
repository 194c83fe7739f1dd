/**
 * Weighted sum of red, green and blue: relative luminance where they are linear light, luma where they are codes, in the
 * unit of the three.
 * @source ITU-R BT.709-6, item 3.2; IEC 61966-2-1:1999 (sRGB) has the same primaries and so the same weights
 */
export function lumaOf(red: number, green: number, blue: number): number {
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue
}
