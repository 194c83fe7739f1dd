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

/**
 * Mean of the values inside the mask within a square of `radius` pixels around each pixel; what lies outside
 * the mask has no say, so hair does not darken the backdrop beside it. NaN where no masked pixel is near.
 */
export function maskedMean(
  values: Float32Array,
  mask: Uint8Array,
  width: number,
  height: number,
  radius: number,
): Float32Array {
  const inside = new Float32Array(values.length)
  for (let i = 0; i < inside.length; i++) if (mask[i] === 1) inside[i] = values[i] as number
  const sums = new Integral(inside, width, height, radius)
  const counts = new Integral(mask, width, height, radius)
  const out = new Float32Array(values.length)
  for (let y = 0, i = 0; y < height; y++) {
    sums.moveTo(y)
    counts.moveTo(y)
    for (let x = 0; x < width; x++, i++) {
      const n = counts.sumAround(x)
      out[i] = n > 0 ? sums.sumAround(x) / n : Number.NaN
    }
  }
  return out
}

/** {@link maskedMean} over the whole frame. */
export function meanAround(
  values: Float32Array,
  width: number,
  height: number,
  radius: number,
): Float32Array {
  const sums = new Integral(values, width, height, radius)
  const out = new Float32Array(values.length)
  for (let y = 0, i = 0; y < height; y++) {
    sums.moveTo(y)
    const rows = Math.min(height, y + radius + 1) - Math.max(0, y - radius)
    for (let x = 0; x < width; x++, i++) {
      const columns = Math.min(width, x + radius + 1) - Math.max(0, x - radius)
      out[i] = sums.sumAround(x) / (columns * rows)
    }
  }
  return out
}

/**
 * Sums over squares around the pixels of one row after the other, from the table of sums over all that lies above and to
 * the left. Only those rows of the table are kept that a square reaches.
 */
class Integral {
  readonly #values: Float32Array | Uint8Array
  readonly #width: number
  readonly #height: number
  readonly #radius: number
  /** A row of the table, with the column of zeros that comes first. */
  readonly #row: number
  readonly #kept: number
  readonly #table: Float64Array
  #ready = 0
  #top = 0
  #bottom = 0

  constructor(values: Float32Array | Uint8Array, width: number, height: number, radius: number) {
    this.#values = values
    this.#width = width
    this.#height = height
    this.#radius = radius
    this.#row = width + 1
    this.#kept = 2 * radius + 2
    this.#table = new Float64Array(this.#kept * this.#row)
  }

  /** @param y each row once, from the top */
  moveTo(y: number): void {
    const below = Math.min(this.#height, y + this.#radius + 1)
    while (this.#ready < below) this.#addRow()
    this.#top = this.#startOf(Math.max(0, y - this.#radius))
    this.#bottom = this.#startOf(below)
  }

  sumAround(x: number): number {
    const table = this.#table
    const left = Math.max(0, x - this.#radius)
    const right = Math.min(this.#width, x + this.#radius + 1)
    return (
      (table[this.#bottom + right] as number) -
      (table[this.#bottom + left] as number) -
      (table[this.#top + right] as number) +
      (table[this.#top + left] as number)
    )
  }

  #startOf(y: number): number {
    return (y % this.#kept) * this.#row
  }

  #addRow(): void {
    const [values, table, width] = [this.#values, this.#table, this.#width]
    const above = this.#startOf(this.#ready) + 1
    const start = this.#startOf(this.#ready + 1) + 1
    const from = this.#ready * width
    let line = 0
    for (let x = 0; x < width; x++) {
      line += values[from + x] as number
      table[start + x] = (table[above + x] as number) + line
    }
    this.#ready++
  }
}
