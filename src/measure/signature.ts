import type { FaceGeometry } from './face.ts'
import type { PictureSignature, SignatureGrid } from './measurements.ts'
import type { RgbPicture } from './rgb-picture.ts'

/** A rectangle around the middle of the eyes, in eye distances along and across the eye line, and its cells. */
interface Extent {
  readonly left: number
  readonly right: number
  readonly top: number
  readonly bottom: number
  readonly cellsPerEyeDistance: number
}

// The face of an adult is about 2.4 eye distances wide and ends 1.8 below the eyes (the drawing's proportions in
// examples/drawing/look.ts): brows, eyes, nose and mouth with some cheek. The second grid holds hair and shoulders too.
const FACE: Extent = { left: -1.1, right: 1.1, top: -0.7, bottom: 1.9, cellsPerEyeDistance: 20 }
const HEAD: Extent = { left: -2.2, right: 2.2, top: -2.2, bottom: 2.6, cellsPerEyeDistance: 5 }

// Samples along each side of a cell: enough that a cell is the mean of the pixels below it.
const SAMPLES = 4

/**
 * What of a picture stays the same when it is saved again, resized or cropped: luma of the face and, coarser, of the
 * whole head, laid out by the irises. It tells one frame from another, also two frames of one person, and so is of no
 * use for recognising anybody; it is still made from a face and never leaves the user's machine.
 */
export function pictureSignature(picture: RgbPicture, geometry: FaceGeometry | null): PictureSignature {
  return {
    face: geometry && gridOf(picture, geometry, FACE),
    head: geometry && gridOf(picture, geometry, HEAD),
    frame: frameGrid(picture),
  }
}

// Along the longer edge of the frame; cells are square, so that a crop only moves and stretches the grid.
const FRAME_CELLS = 32

function frameGrid(picture: RgbPicture): SignatureGrid {
  const cell = Math.max(picture.width, picture.height) / FRAME_CELLS
  const columns = Math.max(1, Math.round(picture.width / cell))
  const rows = Math.max(1, Math.round(picture.height / cell))
  const unit = { x: picture.width / columns, y: picture.height / rows }
  const samples = Math.max(SAMPLES, Math.ceil(cell / 4))
  return sampled(picture, columns, rows, samples, (u, v) => [u * unit.x, v * unit.y])
}

function gridOf(picture: RgbPicture, geometry: FaceGeometry, extent: Extent): SignatureGrid {
  const { left, right, top, bottom, cellsPerEyeDistance: scale } = extent
  const { midEyes, leftEye, rightEye } = geometry
  const across = { x: rightEye.x - leftEye.x, y: rightEye.y - leftEye.y }
  const place = (column: number, row: number): [number, number] => {
    const u = left + column / scale
    const v = top + row / scale
    return [midEyes.x + u * across.x - v * across.y, midEyes.y + u * across.y + v * across.x]
  }
  const columns = Math.round((right - left) * scale)
  return sampled(picture, columns, Math.round((bottom - top) * scale), SAMPLES, place)
}

/** Each cell the mean of `samples` x `samples` places; `place` tells where a point of the grid lies in the picture. */
function sampled(
  picture: RgbPicture,
  columns: number,
  rows: number,
  samples: number,
  place: (column: number, row: number) => [number, number],
): SignatureGrid {
  const cells = Buffer.alloc(columns * rows)
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      let sum = 0
      let inside = true
      for (let sample = 0; sample < samples * samples && inside; sample++) {
        const luma = lumaAt(
          picture,
          ...place(
            column + ((sample % samples) + 0.5) / samples,
            row + (Math.floor(sample / samples) + 0.5) / samples,
          ),
        )
        if (luma === null) inside = false
        else sum += luma
      }
      // 0 says that the cell lies outside the frame.
      if (inside) cells[row * columns + column] = Math.max(1, Math.round(sum / (samples * samples)))
    }
  }
  return { columns, rows, luma: cells.toString('base64') }
}

/** Luma (weights of ITU-R BT.709 on sRGB codes, 0..255) between pixel centers; null outside the picture. */
function lumaAt({ data, width, height }: RgbPicture, x: number, y: number): number | null {
  const px = x - 0.5
  const py = y - 0.5
  if (px < -0.5 || py < -0.5 || px > width - 0.5 || py > height - 0.5) return null
  const x0 = Math.min(width - 1, Math.max(0, Math.floor(px)))
  const y0 = Math.min(height - 1, Math.max(0, Math.floor(py)))
  const x1 = Math.min(width - 1, x0 + 1)
  const y1 = Math.min(height - 1, y0 + 1)
  const fx = Math.min(1, Math.max(0, px - x0))
  const fy = Math.min(1, Math.max(0, py - y0))
  const at = (column: number, row: number): number => {
    const i = 3 * (row * width + column)
    return 0.2126 * (data[i] as number) + 0.7152 * (data[i + 1] as number) + 0.0722 * (data[i + 2] as number)
  }
  const upper = at(x0, y0) * (1 - fx) + at(x1, y0) * fx
  const lower = at(x0, y1) * (1 - fx) + at(x1, y1) * fx
  return upper * (1 - fy) + lower * fy
}
