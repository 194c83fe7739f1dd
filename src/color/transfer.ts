/** Tone curve of an RGB space: an encoded channel value 0..1 to linear light 0..1, or back. */
export type Transfer = (encoded: number) => number

/** sRGB, and Display P3, which has the same. @source IEC 61966-2-1:1999, piecewise curve. */
export const srgbToLinear: Transfer = (encoded) =>
  encoded <= 0.04045 ? encoded / 12.92 : ((encoded + 0.055) / 1.055) ** 2.4

/** Linear light 0..1 of each sRGB code. */
export const LINEAR_LIGHT = Float64Array.from({ length: 256 }, (_, code) => srgbToLinear(code / 255))

/** Linear light 0..1 of an sRGB code 0..255, from a table: {@link srgbToLinear} is slow on whole pictures. */
export function linearLight(code: number): number {
  return LINEAR_LIGHT[code] as number
}

/** Linear light that keeps ratios and logarithms of codes finite. @source IEC 61966-2-1:1999: half of the least code above black. */
export const LEAST_LIGHT = 0.5 / 255 / 12.92

/** Adobe RGB (1998). @source its specification: a pure power with the exponent 2 + 51/256 = 563/256. */
export const adobeRgbToLinear: Transfer = (encoded) => encoded ** (563 / 256)

/** ROMM RGB (ProPhoto). @source ISO 22028-2: power 1.8 with a straight toe of slope 1/16 below 16 * 1/512. */
export const rommToLinear: Transfer = (encoded) => (encoded < 16 / 512 ? encoded / 16 : encoded ** 1.8)

/** The inverse of {@link srgbToLinear}: linear light 0..1 to an encoded value. @source IEC 61966-2-1:1999, piecewise curve. */
export const srgbFromLinear: Transfer = (linear) =>
  linear <= 0.0031308 ? linear * 12.92 : 1.055 * linear ** (1 / 2.4) - 0.055

/** The inverse of {@link adobeRgbToLinear}. @source Adobe RGB (1998) Color Image Encoding, version 2005-05. */
export const adobeRgbFromLinear: Transfer = (linear) => linear ** (256 / 563)

/** The inverse of {@link rommToLinear}. @source ISO 22028-2: the toe ends where both pieces meet, at 1/512. */
export const rommFromLinear: Transfer = (linear) => (linear < 1 / 512 ? linear * 16 : linear ** (1 / 1.8))
