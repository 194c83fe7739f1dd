/** A picture in memory: sRGB, 8 bits a channel, three channels interleaved, row by row, upright as displayed. */
export interface RgbPicture {
  readonly data: Uint8Array
  readonly width: number
  readonly height: number
}
