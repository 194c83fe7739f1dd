import { lumaOf } from '../../../color/luma.ts'
import { linearLight } from '../../../color/transfer.ts'
import type { RgbPicture } from '../../../imaging/rgb-picture.ts'
import { colorSums } from '../../../kernels/sampling.ts'
import type { FacePlace, Pixel } from '../../face/face-axes.ts'

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

/** Numbers of a color. @choice definition: red, green and blue. */
const CHANNELS = 3

/** Reads a strip of the face in cells of one size, however large the face is and however it leans. */
export function readStrip(picture: RgbPicture, face: FaceScale, strip: Strip): StripCells {
  const columns = Math.round(strip.width * CELLS_PER_MM)
  const rows = Math.round(strip.height * CELLS_PER_MM)
  const places = Math.min(MOST_PLACES, Math.max(1, Math.ceil(face.mmPx / CELLS_PER_MM)))
  // Millimeters from the middle of the eyes.
  const placesOf = (from: number, cells: number) =>
    new Float64Array(cells * places).map(
      (_, i) => from + (Math.floor(i / places) + ((i % places) + 0.5) / places) / CELLS_PER_MM,
    )
  const sums = colorSums(picture, {
    origin: face.midEyes,
    axis: face.axis,
    unit: face.mmPx,
    across: placesOf(strip.middle.across - strip.width / 2, columns),
    along: placesOf(strip.middle.along - strip.height / 2, rows),
    places,
  })
  const light = (i: number) => linearLight(Math.round((sums[i] as number) / places ** 2))
  const cells = new Float32Array(columns * rows)
  for (let i = 0; i < cells.length; i++)
    cells[i] = Math.cbrt(lumaOf(light(CHANNELS * i), light(CHANNELS * i + 1), light(CHANNELS * i + 2)))
  return { cells, columns, rows }
}
