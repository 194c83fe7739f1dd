import { type LabPlanes, labPlanes } from '../../color/lab.ts'
import type { RgbPicture } from '../../imaging/rgb-picture.ts'
import type { FaceLandmarks, Pixel } from '../face/face.ts'

/** Cells from the eyes to the chin as the mesh has it: all lower faces are looked at in one size, whatever the file's. */
const CELLS = 100

// What is looked at, in the same unit: from the upper lip to the neck, and from jaw to jaw.
const LEFT = -0.7
const RIGHT = 0.7
const TOP = 0.5
const BOTTOM = 1.32

/** A place of the face in cells: across to the right from the middle of the eyes, and along the axis down from it. */
export interface FacePlace {
  readonly across: number
  readonly along: number
}

/** The lower face, upright: CIE L*a*b* of cells, each the mean of the pixels below it. */
export interface ChinPatch {
  readonly planes: LabPlanes
  readonly columns: number
  readonly rows: number
  /** Pixels of the picture along a cell. */
  readonly cell: number
  readonly placeOf: (pixel: Pixel) => FacePlace
  readonly pixelOf: (place: FacePlace) => Pixel
}

/** Cuts the lower face out of the picture that the landmarks refer to. Beyond the frame its edge goes on. */
export function chinPatch(picture: RgbPicture, landmarks: FaceLandmarks): ChinPatch {
  const { midEyes, axis, meshChin } = landmarks
  const cell = Math.max(1, (meshChin.x - midEyes.x) * axis.x + (meshChin.y - midEyes.y) * axis.y) / CELLS
  const pixelOf = ({ across, along }: FacePlace): Pixel => ({
    x: midEyes.x + cell * (across * axis.y + along * axis.x),
    y: midEyes.y + cell * (along * axis.y - across * axis.x),
  })
  const placeOf = ({ x, y }: Pixel): FacePlace => {
    const [dx, dy] = [(x - midEyes.x) / cell, (y - midEyes.y) / cell]
    return { across: dx * axis.y - dy * axis.x, along: dx * axis.x + dy * axis.y }
  }
  const columns = Math.round((RIGHT - LEFT) * CELLS)
  const rows = Math.round((BOTTOM - TOP) * CELLS)
  const samples = Math.max(1, Math.round(cell))
  const codes = new Uint8Array(3 * columns * rows)
  const sum = new Float64Array(3)
  for (let row = 0, to = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++, to += 3) {
      sum.fill(0)
      for (let i = 0; i < samples * samples; i++) {
        const across = LEFT * CELLS + column + ((i % samples) + 0.5) / samples
        const along = TOP * CELLS + row + (Math.floor(i / samples) + 0.5) / samples
        addColor(sum, picture, pixelOf({ across, along }))
      }
      for (let channel = 0; channel < 3; channel++)
        codes[to + channel] = Math.round((sum[channel] as number) / samples ** 2)
    }
  }
  return { planes: labPlanes(codes, columns * rows), columns, rows, cell, placeOf, pixelOf }
}

/** One plane of the patch at a place, between the middles of its cells. */
export function patchAt(
  plane: Float32Array,
  { columns, rows }: ChinPatch,
  { across, along }: FacePlace,
): number {
  const x = within(across - LEFT * CELLS - 0.5, columns - 1)
  const y = within(along - TOP * CELLS - 0.5, rows - 1)
  const column = Math.min(columns - 2, Math.floor(x))
  const row = Math.min(rows - 2, Math.floor(y))
  return between(plane, columns, row * columns + column, x - column, y - row)
}

function addColor(sum: Float64Array, { data, width, height }: RgbPicture, { x, y }: Pixel): void {
  const column = within(x - 0.5, width - 1)
  const row = within(y - 0.5, height - 1)
  const left = Math.floor(column)
  const top = Math.floor(row)
  const [u, v] = [column - left, row - top]
  const across = 3 * (Math.min(width - 1, left + 1) - left)
  const down = 3 * width * (Math.min(height - 1, top + 1) - top)
  const first = 3 * (top * width + left)
  for (let channel = 0; channel < 3; channel++) {
    const at = first + channel
    const upper = (data[at] as number) * (1 - u) + (data[at + across] as number) * u
    const lower = (data[at + down] as number) * (1 - u) + (data[at + down + across] as number) * u
    sum[channel] = (sum[channel] as number) + upper * (1 - v) + lower * v
  }
}

function between(plane: Float32Array, columns: number, at: number, u: number, v: number): number {
  const upper = (plane[at] as number) * (1 - u) + (plane[at + 1] as number) * u
  const lower = (plane[at + columns] as number) * (1 - u) + (plane[at + columns + 1] as number) * u
  return upper * (1 - v) + lower * v
}

function within(value: number, last: number): number {
  return Math.min(last, Math.max(0, value))
}
