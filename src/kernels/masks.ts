import { withKernels } from './memory.ts'

/**
 * Shrinks a 0/1 mask by a square of `radius` pixels: a pixel stays only if all pixels within `radius`
 * of it (inside the frame) are set. One pass along the rows and one down them, so the time does not grow with the radius.
 */
export function erode(mask: Uint8Array, width: number, height: number, radius: number): Uint8Array {
  if (radius <= 0) return mask.slice()
  return withKernels((kernels, memory) => {
    const [across, out] = [memory.room(mask.length), memory.room(mask.length)]
    const holes = memory.room(Int32Array.BYTES_PER_ELEMENT * width)
    kernels.erode(memory.put(mask), out, across, holes, width, height, radius)
    return memory.bytes(out, mask.length)
  })
}

/** Takes off what is thinner than `2 x radius + 1` pixels and leaves the rest as it was: erosion, then dilation. */
export function open(mask: Uint8Array, width: number, height: number, radius: number): Uint8Array {
  const opened = new Uint8Array(mask.length)
  const first = mask.indexOf(1)
  if (first < 0) return opened
  if (radius <= 0) return mask.slice()
  // Nothing happens further than the radius above and below what is set.
  const top = Math.max(0, Math.floor(first / width) - radius)
  const bottom = Math.min(height, Math.floor(mask.lastIndexOf(1) / width) + radius + 1)
  const part = mask.subarray(top * width, bottom * width)
  const rows = withKernels((kernels, memory) => {
    const [across, out] = [memory.room(part.length), memory.room(part.length)]
    const holes = memory.room(Int32Array.BYTES_PER_ELEMENT * width)
    const eroded = memory.put(part)
    kernels.erode(eroded, out, across, holes, width, bottom - top, radius)
    kernels.invert(out, part.length)
    kernels.erode(out, eroded, across, holes, width, bottom - top, radius)
    kernels.invert(eroded, part.length)
    return memory.bytes(eroded, part.length)
  })
  opened.set(rows, top * width)
  return opened
}
