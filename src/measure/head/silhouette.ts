import { floodFill } from '../../kernels/flood.ts'
import { inverted, open } from '../../kernels/masks.ts'
import type { FaceGeometry } from '../face/face-axes.ts'

/** A 0/1 picture, row by row. */
export interface Mask {
  readonly data: Uint8Array
  readonly width: number
  readonly height: number
}

/** The connected region that is not backdrop and holds the face; null when the face itself passes for backdrop. */
export function silhouetteOf({ data, width, height }: Mask, face: FaceGeometry): Mask | null {
  const seed = [face.leftEye, face.rightEye, face.midEyes]
    .map(({ x, y }) => ({ column: Math.floor(x), row: Math.floor(y) }))
    .filter(({ column, row }) => column >= 0 && row >= 0 && column < width && row < height)
    .map(({ column, row }) => row * width + column)
    .find((index) => data[index] === 0)
  if (seed === undefined) return null
  return { data: floodFill(inverted(data), width, [seed]), width, height }
}

/**
 * A mask without what is thinner than twice a radius, row by row from the top. Opening a whole silhouette takes long and
 * nearly always its upper part tells all, so the rest is opened only when it is asked for.
 */
export class OpenedMask {
  readonly #mask: Mask
  readonly #radius: number
  #opened: Uint8Array
  #knownRows: number

  /** @param likely rows from the top that will nearly always do */
  constructor(mask: Mask, radius: number, likely: number) {
    const { data, width, height } = mask
    this.#mask = mask
    this.#radius = radius
    const rows = Math.min(likely, height)
    this.#opened = open(data.subarray(0, rows * width), width, rows, radius)
    // What lies below the last row has a say this far up.
    this.#knownRows = rows === height ? height : Math.max(0, rows - 2 * radius)
  }

  /** The mask with at least so many rows that are opened. */
  withRows(rows: number): Uint8Array {
    if (rows > this.#knownRows) {
      const { data, width, height } = this.#mask
      this.#opened = open(data, width, height, this.#radius)
      this.#knownRows = height
    }
    return this.#opened
  }
}
