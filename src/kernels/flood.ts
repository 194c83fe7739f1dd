import { withKernels } from './memory.ts'

/**
 * Flood fill: the pixels that are 1 and connected (4-neighbors) to a seed, as a mask. Works run by run along the rows, since
 * a backdrop is most of its picture.
 * @param free where it may go, 1
 * @param seeds indexes of pixels
 */
export function floodFill(free: Uint8Array, width: number, seeds: readonly number[]): Uint8Array {
  const count = free.length
  return withKernels((kernels, memory) => {
    const mask = memory.put(new Uint8Array(count))
    const stack = memory.room(STACK * count)
    kernels.floodFill(
      memory.put(free),
      mask,
      width,
      count,
      memory.put(Int32Array.from(seeds)),
      seeds.length,
      stack,
    )
    return memory.bytes(mask, count)
  })
}

/** What a flood runs over, row by row. */
export interface Ground {
  /** How far each pixel is from what floods. */
  readonly distance: Float32Array
  /** 1 where the flood stops although the distance is small. */
  readonly outline: Uint8Array
  readonly width: number
}

/**
 * The pixels of the first `rows` rows within the threshold that connect to a seed (4-neighbors) without crossing an outline,
 * and of those on outlines what is at most `smear` pixels away from them through what is. 1 where flooded, else 0.
 * @param seeds indexes of pixels
 */
export function floodWithin(
  { distance, outline, width }: Ground,
  threshold: number,
  seeds: readonly number[],
  rows: number,
  smear: number,
): Uint8Array {
  const count = distance.length
  const end = Math.min(count, rows * width)
  return withKernels((kernels, memory) => {
    const [mask, ways] = [memory.put(new Uint8Array(count)), memory.put(new Uint8Array(count))]
    kernels.waysWithin(memory.put(distance), memory.put(outline), ways, end, threshold)
    const stack = memory.room(STACK * count)
    kernels.floodFill(ways, mask, width, end, memory.put(Int32Array.from(seeds)), seeds.length, stack)
    kernels.growIntoSmear(mask, ways, width, end, smear, stack)
    return memory.bytes(mask, count)
  })
}

/** Bytes of stack a pixel: a run enters its two neighbors' at every other pixel at most. @choice definition: two indexes. */
const STACK = 2 * Int32Array.BYTES_PER_ELEMENT
