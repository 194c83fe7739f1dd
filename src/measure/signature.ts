import { LUMA } from '../color/luma.ts'
import type { RgbPicture } from '../imaging/rgb-picture.ts'
import { graySums } from '../kernels/sampling.ts'
import type { FaceAxes, Pixel } from './face/face-axes.ts'
import type { PictureSignature, SignatureGrid } from './schema/measurements.ts'

/** A rectangle around the middle of the eyes, in eye distances along and across the eye line, and its cells. */
interface Extent {
  readonly left: number
  readonly right: number
  readonly top: number
  readonly bottom: number
  readonly cellsPerEyeDistance: number
}

/**
 * The grid of the face, eye distances from the middle of the eyes.
 * @choice brows, eyes, nose and mouth with some cheek: the face of an adult is about 2.4 eye distances wide and ends 1.8 below the eyes
 * (the proportions of the drawn sitters, examples/drawing/look.ts).
 */
const FACE: Extent = { left: -1.1, right: 1.1, top: -0.7, bottom: 1.9, cellsPerEyeDistance: 20 }

/** The grid of the head, eye distances from the middle of the eyes. @choice with hair and shoulders; coarse, so that it is quickly compared. */
const HEAD: Extent = { left: -2.2, right: 2.2, top: -2.2, bottom: 2.6, cellsPerEyeDistance: 5 }

/** Fewest samples along each side of a cell. @choice enough that a cell is the mean of the pixels below it, no source. */
const SAMPLES = 4

/** Widest step between samples, px. @choice as above: wider steps leave texture out. */
const STEP_PX = 4

/**
 * What of a picture stays the same when it is saved again, resized or cropped: luma of the face and, coarser, of the
 * whole head, laid out by the irises. It tells one frame from another, also two frames of one person, and so is of no
 * use for recognizing anybody; it is still made from a face and never leaves the user's machine.
 */
export function pictureSignature(picture: RgbPicture, geometry: FaceAxes | null): PictureSignature {
  return {
    face: geometry && gridOf(picture, geometry, FACE),
    head: geometry && gridOf(picture, geometry, HEAD),
    frame: frameGrid(picture),
  }
}

/** Cells along the longer edge of the frame; they are square, so that a crop only moves and stretches the grid. @choice no source: enough to tell frames apart, and few to store. */
const FRAME_CELLS = 32

function frameGrid(picture: RgbPicture): SignatureGrid {
  const cell = Math.max(picture.width, picture.height) / FRAME_CELLS
  const columns = Math.max(1, Math.round(picture.width / cell))
  const rows = Math.max(1, Math.round(picture.height / cell))
  const samples = Math.max(SAMPLES, Math.ceil(cell / STEP_PX))
  return sampled(picture, {
    ...{ columns, rows, samples },
    ...{ left: 0, top: 0, cellsPerUnit: 1 },
    origin: { x: 0, y: 0 },
    right: { x: picture.width / columns, y: 0 },
    down: { x: 0, y: picture.height / rows },
  })
}

function gridOf(picture: RgbPicture, geometry: FaceAxes, extent: Extent): SignatureGrid {
  const { left, right, top, bottom, cellsPerEyeDistance } = extent
  const { midEyes, leftEye, rightEye } = geometry
  const across = { x: rightEye.x - leftEye.x, y: rightEye.y - leftEye.y }
  return sampled(picture, {
    columns: Math.round((right - left) * cellsPerEyeDistance),
    rows: Math.round((bottom - top) * cellsPerEyeDistance),
    samples: SAMPLES,
    ...{ left, top, cellsPerUnit: cellsPerEyeDistance },
    origin: midEyes,
    right: across,
    down: { x: -across.y, y: across.x },
  })
}

/** How a grid lies in a picture: its place in units, and what the units are in pixels. */
interface Layout {
  readonly columns: number
  readonly rows: number
  /** Samples along each side of a cell. */
  readonly samples: number
  /** The grid's corner, in units from the origin. */
  readonly left: number
  readonly top: number
  readonly cellsPerUnit: number
  readonly origin: Pixel
  /** One unit along the rows, and one down the columns. */
  readonly right: Pixel
  readonly down: Pixel
}

/** Each cell the mean of `samples` x `samples` places; 0 where a part of it lies outside the picture. */
function sampled(picture: RgbPicture, layout: Layout): SignatureGrid {
  const { columns, rows, samples, left, top, cellsPerUnit, origin, right, down } = layout
  const across = placesOf(columns, samples, left, cellsPerUnit)
  const along = placesOf(rows, samples, top, cellsPerUnit)
  const places = {
    xs: across.map((u) => origin.x + u * right.x),
    ys: across.map((u) => origin.y + u * right.y),
    downXs: along.map((v) => v * down.x),
    downYs: along.map((v) => v * down.y),
    places: samples,
  }
  const sums = graySums(picture, places, LUMA)
  const cells = Buffer.alloc(columns * rows)
  for (let cell = 0; cell < cells.length; cell++) {
    const luma = (sums[cell] as number) / (samples * samples)
    if (luma >= 0) cells[cell] = Math.max(1, Math.round(luma))
  }
  return { columns, rows, luma: cells.toString('base64') }
}

/** Where the samples of so many cells in a line stand, units. */
function placesOf(cells: number, samples: number, first: number, cellsPerUnit: number): Float64Array {
  return Float64Array.from(
    { length: cells * samples },
    (_, k) => first + (Math.floor(k / samples) + ((k % samples) + 0.5) / samples) / cellsPerUnit,
  )
}
