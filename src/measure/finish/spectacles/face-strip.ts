import { lumaOf } from '../../../color/luma.ts'
import { linearLight } from '../../../color/transfer.ts'
import { addColorAt } from '../../../imaging/interpolate.ts'
import type { RgbPicture } from '../../../imaging/rgb-picture.ts'
import { type FacePlace, type Pixel, pixelOnFace } from '../../face/face-axes.ts'

/** A rectangle on the upright face, in millimeters: its middle from the middle of the eyes, and its size. */
export interface Strip {
  readonly middle: FacePlace
  readonly width: number
  readonly height: number
}

/** Cube roots of luminance, which go with lightness (CIE 1976), row by row. */
export interface StripCells {
  readonly cells: Float32Array
  readonly columns: number
  readonly rows: number
}

/** Where the upright face lies, and the pixels of the picture a millimeter of it takes. */
export interface FaceScale {
  readonly midEyes: Pixel
  readonly axis: Pixel
  readonly mmPx: number
}

/** Cells a millimeter. @choice the thinnest wires are a millimeter thick; no source. */
export const CELLS_PER_MM = 2

/** Places a cell is averaged over at most, to a side. @choice 8 px a millimeter, 500 px between the eyes; more adds nothing but time. */
const MOST_PLACES = 4

/** Reads a strip of the face in cells of one size, however large the face is and however it leans. */
export function readStrip(picture: RgbPicture, face: FaceScale, strip: Strip): StripCells {
  const columns = Math.round(strip.width * CELLS_PER_MM)
  const rows = Math.round(strip.height * CELLS_PER_MM)
  const cells = new Float32Array(columns * rows)
  const places = Math.min(MOST_PLACES, Math.max(1, Math.ceil(face.mmPx / CELLS_PER_MM)))
  const sum = Float64Array.of(0, 0, 0)
  const left = strip.middle.across - strip.width / 2
  const top = strip.middle.along - strip.height / 2
  const light = (channel: number) => linearLight(Math.round((sum[channel] as number) / places ** 2))
  for (let row = 0, i = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++, i++) {
      sum.fill(0)
      for (let down = 0; down < places; down++) {
        const along = top + (row + (down + 0.5) / places) / CELLS_PER_MM
        for (let right = 0; right < places; right++) {
          const across = left + (column + (right + 0.5) / places) / CELLS_PER_MM
          const { x, y } = pixelOnFace(face, { across, along }, face.mmPx)
          addColorAt(sum, picture, x, y)
        }
      }
      cells[i] = Math.cbrt(lumaOf(light(0), light(1), light(2)))
    }
  }
  return { cells, columns, rows }
}
