/** Weights of red, green and blue. @source ITU-R BT.709-6, item 3.2; IEC 61966-2-1:1999 (sRGB) has the same primaries and so the same weights */
export const LUMA = { red: 0.2126, green: 0.7152, blue: 0.0722 } as const

/** Weighted sum of red, green and blue: relative luminance where they are linear light, luma where they are codes, in the unit of the three. */
export function lumaOf(red: number, green: number, blue: number): number {
  return LUMA.red * red + LUMA.green * green + LUMA.blue * blue
}
