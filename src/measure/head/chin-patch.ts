import { type LabPlanes, labPlanes } from '../../color/lab.ts'
import { addColorAt, valueAt } from '../../imaging/interpolate.ts'
import type { RgbPicture } from '../../imaging/rgb-picture.ts'
import {
  type FaceLandmarks,
  type FacePlace,
  type Pixel,
  pixelOnFace,
  placeOnFace,
} from '../face/face-axes.ts'

/**
 * Cells from the eyes to the mesh's chin.
 * @choice all lower faces are looked at in one size, whatever the file's
 */
const CELLS = 100

/**
 * The patch, in cells: from the upper lip to the neck, and from jaw to jaw.
 * @choice with room for a long beard and a broad jaw
 */
const AREA = { left: -70, right: 70, top: 50, bottom: 132 }

const COLUMNS = AREA.right - AREA.left
const ROWS = AREA.bottom - AREA.top

/** The lower face, upright: CIE L*a*b* of cells, each the mean of the pixels it covers. */
export interface ChinPatch {
  readonly planes: LabPlanes
  /** Pixels of the picture along a cell. */
  readonly cell: number
  /** Places are in cells. */
  readonly placeOf: (pixel: Pixel) => FacePlace
  readonly pixelOf: (place: FacePlace) => Pixel
}

/** Cuts the lower face out of the picture that the landmarks refer to. Beyond the frame its edge pixels are repeated. */
export function chinPatch(picture: RgbPicture, landmarks: FaceLandmarks): ChinPatch {
  const cell = Math.max(1, placeOnFace(landmarks, landmarks.meshChin).along) / CELLS
  const pixelOf = (place: FacePlace) => pixelOnFace(landmarks, place, cell)
  return {
    planes: labPlanes(cellColors(picture, pixelOf, Math.max(1, Math.round(cell))), COLUMNS * ROWS),
    cell,
    placeOf: (pixel) => placeOnFace(landmarks, pixel, cell),
    pixelOf,
  }
}

/** One plane of the patch at a place, between the middles of its cells. */
export function patchAt(plane: Float32Array, { across, along }: FacePlace): number {
  return valueAt(plane, COLUMNS, ROWS, across - AREA.left, along - AREA.top)
}

/**
 * R, G and B of each cell, row by row.
 * @param samples along each side of a cell
 */
function cellColors(picture: RgbPicture, pixelOf: ChinPatch['pixelOf'], samples: number): Uint8Array {
  const colors = new Uint8Array(3 * COLUMNS * ROWS)
  const sum = Float64Array.of(0, 0, 0)
  for (let row = 0, to = 0; row < ROWS; row++) {
    for (let column = 0; column < COLUMNS; column++, to += 3) {
      sum.fill(0)
      for (let i = 0; i < samples * samples; i++) {
        const across = AREA.left + column + ((i % samples) + 0.5) / samples
        const along = AREA.top + row + (Math.floor(i / samples) + 0.5) / samples
        const { x, y } = pixelOf({ across, along })
        addColorAt(sum, picture, x, y)
      }
      for (let channel = 0; channel < 3; channel++)
        colors[to + channel] = Math.round((sum[channel] as number) / samples ** 2)
    }
  }
  return colors
}
