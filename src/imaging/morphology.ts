/**
 * Shrinks a 0/1 mask by a square of `radius` pixels: a pixel stays only if all pixels within `radius`
 * of it (inside the frame) are set. One pass along the rows and one down them, so the time does not grow with the radius.
 */
export function erode(mask: Uint8Array, width: number, height: number, radius: number): Uint8Array {
  if (radius <= 0) return mask.slice()
  return erodeDown(erodeAcross(mask, width, height, radius), width, height, radius)
}

/** Takes off what is thinner than `2 x radius + 1` pixels and leaves the rest as it was: erosion, then dilation. */
export function open(mask: Uint8Array, width: number, height: number, radius: number): Uint8Array {
  const out = new Uint8Array(mask.length)
  const first = mask.indexOf(1)
  if (first < 0) return out
  // Nothing happens further than the radius above and below what is set.
  const top = Math.max(0, Math.floor(first / width) - radius)
  const bottom = Math.min(height, Math.floor(mask.lastIndexOf(1) / width) + radius + 1)
  const rows = mask.subarray(top * width, bottom * width)
  const complement = inverted(erode(rows, width, bottom - top, radius))
  out.set(inverted(erode(complement, width, bottom - top, radius)), top * width)
  return out
}

/** Turns a mask over, in place. */
function inverted(mask: Uint8Array): Uint8Array {
  for (let i = 0; i < mask.length; i++) mask[i] = 1 - (mask[i] as number)
  return mask
}

/** Shortens each run of set pixels by `radius` at both ends, but for those at the frame's edge. */
function erodeAcross(mask: Uint8Array, width: number, height: number, radius: number): Uint8Array {
  const out = new Uint8Array(mask.length)
  for (let start = 0; start < width * height; start += width) {
    const end = start + width
    for (let i = start; i < end; i++) {
      if (mask[i] === 0) continue
      const first = i
      while (i < end && mask[i] !== 0) i++
      const from = first === start ? first : first + radius
      const to = i === end ? end : i - radius
      if (from < to) out.fill(1, from, to)
    }
  }
  return out
}

/** The same down the columns: a pixel stays when the last hole down to `radius` below lies more than that above. */
function erodeDown(mask: Uint8Array, width: number, height: number, radius: number): Uint8Array {
  const out = new Uint8Array(mask.length)
  const lastHole = new Int32Array(width).fill(-radius - 1)
  for (let below = 0; below < height + radius; below++) {
    if (below < height) {
      const row = below * width
      for (let x = 0; x < width; x++) if (mask[row + x] === 0) lastHole[x] = below
    }
    const y = below - radius
    if (y < 0) continue
    for (let x = 0, i = y * width; x < width; x++, i++) {
      out[i] = (lastHole[x] as number) < y - radius ? 1 : 0
    }
  }
  return out
}
