import { withKernels } from './with-kernels.ts'

/** What either mask of 0 and 1 covers. */
export function union(one: Uint8Array, other: Uint8Array): Uint8Array {
  return joined('union', one, other)
}

/** What both cover. */
export function common(one: Uint8Array, other: Uint8Array): Uint8Array {
  return joined('common', one, other)
}

/** What the first covers and the second does not. */
export function without(one: Uint8Array, other: Uint8Array): Uint8Array {
  return joined('without', one, other)
}

/** 1 where a mask of 0 and 1 is 0. */
export function inverted(mask: Uint8Array): Uint8Array {
  return withKernels((kernels, memory) => {
    const at = memory.put(mask)
    kernels.invert(at, mask.length)
    return memory.bytes(at, mask.length)
  })
}

function joined(how: 'union' | 'common' | 'without', one: Uint8Array, other: Uint8Array): Uint8Array {
  return withKernels((kernels, memory) => {
    const out = memory.put(one)
    kernels[how](out, memory.put(other), one.length)
    return memory.bytes(out, one.length)
  })
}

/** 1 where a value lies between two limits, both included. */
export function between(values: Float32Array, least: number, most: number): Uint8Array {
  return withKernels((kernels, memory) => {
    const out = memory.room(values.length)
    kernels.between(memory.put(values), values.length, least, most, out)
    return memory.bytes(out, values.length)
  })
}

/** What of a mask has a value above the limit. */
export function brighter(mask: Uint8Array, values: Float32Array, limit: number): Uint8Array {
  return withKernels((kernels, memory) => {
    const out = memory.put(mask)
    kernels.brighter(out, memory.put(values), mask.length, limit)
    return memory.bytes(out, mask.length)
  })
}

/** The values of what the first mask covers and the second does not, in their order. */
export function valuesIn(values: Float32Array, mask: Uint8Array, except: Uint8Array): Float32Array {
  return withKernels((kernels, memory) => {
    const out = memory.room(values.byteLength)
    const places = [memory.put(values), memory.put(mask), memory.put(except)]
    return memory.floats(out, kernels.valuesIn(...places, mask.length, out))
  })
}

export function countOf(mask: Uint8Array): number {
  return withKernels((kernels, memory) => kernels.countOf(memory.put(mask), mask.length))
}

/** Indexes of about `most` of the pixels that are 1, evenly, in their order; of all when they are fewer. */
export function samplesOf(mask: Uint8Array, most: number): Int32Array {
  return withKernels((kernels, memory) => {
    const at = memory.put(mask)
    const count = kernels.countOf(at, mask.length)
    const step = Math.max(1, count / most)
    const length = Math.floor(count / step)
    const out = memory.room(Int32Array.BYTES_PER_ELEMENT * length)
    kernels.everyNth(at, step, length, out)
    return memory.wholes(out, length)
  })
}

/**
 * Mean of the values inside the mask within a square of `radius` pixels around some pixels; what lies outside the mask
 * has no say, so hair does not darken the backdrop beside it. NaN where no masked pixel is near. Summed up in double precision.
 * @param pixels indexes, rising
 */
export function maskedMeansAt(
  pixels: Int32Array,
  values: Float32Array,
  mask: Uint8Array,
  width: number,
  height: number,
  radius: number,
): Float32Array {
  return withKernels((kernels, memory) => {
    const given = [memory.put(pixels), pixels.length, memory.put(values), memory.put(mask)]
    const [sums, counts] = [memory.put(new Float64Array(width)), memory.put(new Int32Array(width))]
    const before = [memory.put(new Float64Array(width + 1)), memory.put(new Int32Array(width + 1))]
    const out = memory.room(Float32Array.BYTES_PER_ELEMENT * pixels.length)
    kernels.maskedMeans(...given, width, height, radius, sums, counts, ...before, out)
    return memory.floats(out, pixels.length)
  })
}

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

/** Grows a 0/1 mask by a square of `radius` pixels: a pixel is set if any within `radius` of it is. */
export function grow(mask: Uint8Array, width: number, height: number, radius: number): Uint8Array {
  if (radius <= 0) return mask.slice()
  return withKernels((kernels, memory) => {
    const [across, out] = [memory.room(mask.length), memory.room(mask.length)]
    const holes = memory.room(Int32Array.BYTES_PER_ELEMENT * width)
    const rest = memory.put(mask)
    kernels.invert(rest, mask.length)
    kernels.erode(rest, out, across, holes, width, height, radius)
    kernels.invert(out, mask.length)
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
