import type { ByteGrid } from '../kernels/grids/grids.ts'
import type { PictureSignature } from '../measure/schema/measurements.ts'
import { halved, mirrored, readGrid } from './luma-grid.ts'

/** A signature made ready to be compared many times. */
export interface ReadySignature {
  readonly face: BothWays | null
  /** The face at half its resolution. */
  readonly coarseFace: BothWays | null
  readonly head: BothWays | null
  readonly frame: BothWays
  /** Quantiles of the luma of the frame's cells, from dark to light; evenly spaced. */
  readonly tones: Float32Array
}

/** A grid as it is, and as in a mirror. */
export interface BothWays {
  readonly plain: ByteGrid
  readonly mirror: ByteGrid
}
export type Way = keyof BothWays

/** Null when the signature is damaged. */
export function ready(signature: PictureSignature): ReadySignature | null {
  const frame = readGrid(signature.frame)
  if (!frame) return null
  const face = signature.face && readGrid(signature.face)
  const head = signature.head && readGrid(signature.head)
  return {
    face: face && bothWays(face),
    coarseFace: face && bothWays(halved(face)),
    head: head && bothWays(head),
    frame: bothWays(frame),
    tones: toneQuantiles(frame),
  }
}

function bothWays(plain: ByteGrid): BothWays {
  return { plain, mirror: mirrored(plain) }
}

/**
 * How many quantiles stand for the tones of a frame.
 * @choice about one for each 50 cells of a frame; tones of copies differ by more than finer steps would show
 */
const QUANTILES = 16

/** By counting: luma is 1 to 255 inside the frame, 0 outside. */
function toneQuantiles({ luma }: ByteGrid): Float32Array {
  const counts = new Uint32Array(256)
  for (const value of luma) counts[value] = (counts[value] as number) + 1
  const inFrame = luma.length - (counts[0] as number)
  const quantiles = new Float32Array(QUANTILES)
  let value = 0
  let passed = 0
  for (let k = 0; k < QUANTILES && inFrame > 0; k++) {
    const rank = Math.floor(((k + 0.5) / QUANTILES) * inFrame)
    while (passed <= rank) passed += counts[++value] as number
    quantiles[k] = value
  }
  return quantiles
}
