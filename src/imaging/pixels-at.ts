import type { RgbPicture } from './rgb-picture.ts'

/** Of a pixel. @choice definition: red, green and blue */
const CHANNELS = 3

/** Some pixels of a picture, one beside the other. @param pixels indexes */
export function pixelsAt({ data }: RgbPicture, pixels: Int32Array): RgbPicture {
  const codes = new Uint8Array(CHANNELS * pixels.length)
  for (let k = 0, to = 0; k < pixels.length; k++, to += CHANNELS) {
    const from = CHANNELS * (pixels[k] as number)
    codes[to] = data[from] as number
    codes[to + 1] = data[from + 1] as number
    codes[to + 2] = data[from + 2] as number
  }
  return { data: codes, width: pixels.length, height: 1 }
}
