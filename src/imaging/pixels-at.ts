import type { RgbPicture } from './rgb-picture.ts'

/** Of a pixel. @choice definition: red, green and blue */
const CHANNELS = 3

/** Some pixels of a picture, one beside the other. @param pixels indexes */
export function pixelsAt({ data }: RgbPicture, pixels: Int32Array): RgbPicture {
  const codes = new Uint8Array(CHANNELS * pixels.length)
  copyPixels(data, pixels, codes)
  return { data: codes, width: pixels.length, height: 1 }
}

// By itself: V8 leaves a loop that it compiled while it ran for what comes after it, each time anew.
function copyPixels(data: Uint8Array, pixels: Int32Array, codes: Uint8Array): void {
  for (let k = 0, to = 0; k < pixels.length; k++, to += CHANNELS) {
    const from = CHANNELS * (pixels[k] as number)
    codes[to] = data[from] as number
    codes[to + 1] = data[from + 1] as number
    codes[to + 2] = data[from + 2] as number
  }
}
