/** A whole picture as displayed: orientation applied, converted to sRGB through its profile, flattened on white. */
export interface DecodedPicture {
  /** R, G, B of each pixel, 8 bit, row by row from the top left; `width * height * 3` bytes. */
  readonly data: Buffer
  /** In pixels, full size. */
  readonly width: number
  readonly height: number
  /** Share of the pixels that were not opaque (alpha below 255) before flattening, 0..1. */
  readonly transparentShare: number
  /** Alpha of each pixel, 0 where it is transparent; null where the picture has none or is opaque throughout. */
  readonly alpha?: Uint8Array | null
}
