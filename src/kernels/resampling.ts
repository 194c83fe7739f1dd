import { withKernels } from './memory.ts'

const FLOAT = Float32Array.BYTES_PER_ELEMENT

/** Bytes of a pixel in linear light. */
const LIGHT = 3 * FLOAT

/** A part of a picture, red, green and blue side by side. */
export interface Part {
  readonly codes: Uint8Array | Uint16Array
  /** Of the whole picture. */
  readonly widthPx: number
  readonly leftPx: number
  readonly topPx: number
  /** Linear light of each code of red, green and blue. */
  readonly light: readonly [Float32Array, Float32Array, Float32Array]
}

/** How an axis is made shorter: every pixel of the result is a weighted sum of `count` that are side by side. */
export interface Taps {
  /** The first of them, for each pixel. */
  readonly starts: Int32Array
  /** `count` weights for each pixel. */
  readonly weights: Float32Array
  readonly count: number
  /** The first of the nearest of them, for each pixel: the result is no darker than these. */
  readonly nears: Int32Array
  /** How many are nearest; 0 bounds nothing. */
  readonly near: number
  /** How many there were. */
  readonly from: number
}

/** A part of a picture in linear light, made smaller along both axes. */
export function resampledLight(
  { codes, widthPx, leftPx, topPx, light }: Part,
  across: Taps,
  down: Taps,
): Float32Array {
  const [width, height] = [across.starts.length, down.starts.length]
  const out = new Float32Array(3 * width * height)
  withKernels((kernels, memory) => {
    const [red, green, blue] = lightAt(light, memory.put)
    const input = memory.room(3 * across.from * codes.BYTES_PER_ELEMENT)
    const starts = memory.put(across.starts)
    const weights = memory.put(across.weights)
    const nears = memory.put(across.nears)
    const [middle, row] = [memory.room(LIGHT * across.from), memory.room(LIGHT * width)]
    const places = memory.room(Uint32Array.BYTES_PER_ELEMENT * down.count)
    const downWeights = memory.room(FLOAT * down.count)
    // Only the rows that some pixel still needs are kept.
    const kept = Array.from({ length: down.count }, () => memory.room(LIGHT * across.from))
    let next = 0
    for (let y = 0; y < height; y++) {
      const start = down.starts[y] as number
      for (next = Math.max(next, start); next < start + down.count; next++) {
        const at = 3 * ((topPx + next) * widthPx + leftPx)
        memory.fill(input, codes.subarray(at, at + 3 * across.from))
        const to = kept[next % down.count] as number
        kernels.lighten(input, across.from, codes.BYTES_PER_ELEMENT - 1, red, green, blue, to)
      }
      const rows = Int32Array.from({ length: down.count }, (_, k) => kept[(start + k) % down.count] as number)
      memory.fill(places, rows)
      memory.fill(downWeights, down.weights.subarray(y * down.count, (y + 1) * down.count))
      kernels.weigh(places, LIGHT * across.from, downWeights, down.count, middle)
      const first = (down.nears[y] as number) - start
      if (down.near > 0)
        kernels.bound(places + Int32Array.BYTES_PER_ELEMENT * first, down.near, LIGHT * across.from, middle)
      kernels.gather(middle, width, starts, weights, across.count, nears, across.near, row)
      out.set(memory.floats(row, 3 * width), 3 * y * width)
    }
  })
  return out
}

/** Addresses of the three tables; those that are the same are put only once. */
function lightAt(
  light: Part['light'],
  put: (table: Float32Array) => number,
): readonly [number, number, number] {
  const places = new Map<Float32Array, number>()
  const placeOf = (table: Float32Array) => {
    const place = places.get(table) ?? put(table)
    places.set(table, place)
    return place
  }
  const [red, green, blue] = light
  return [placeOf(red), placeOf(green), placeOf(blue)]
}

/** How linear light becomes codes. */
export interface Coding {
  /** From the light of one space to that of another: three columns of three numbers and a 0; with one channel the first row counts. */
  readonly columns: Float32Array
  /** Codes over the root of light, 0..1 in even steps. */
  readonly table: Float32Array
  /** What is added before rounding down, by 8 rows and 8 columns. */
  readonly noise: Float32Array
  readonly channels: 1 | 3
  /** How far beyond 0..1 light may lie and still be in gamut. */
  readonly within: number
}

/** Light of so many pixels a row as codes, written to `out`. @returns how many pixels are out of gamut */
export function encodedLight(
  light: Float32Array,
  width: number,
  { columns, table, noise, channels, within }: Coding,
  out: Uint8Array | Uint16Array,
): number {
  const bytes = out.BYTES_PER_ELEMENT
  return withKernels((kernels, memory) => {
    const [row, codes] = [memory.room(LIGHT * width), memory.room(channels * width * bytes)]
    const [rows, steps] = [memory.put(columns), memory.put(closed(table))]
    const noises = memory.put(noise)
    let outside = 0
    for (let y = 0; 3 * y * width < light.length; y++) {
      memory.fill(row, light.subarray(3 * y * width, 3 * (y + 1) * width))
      const own = noises + 8 * FLOAT * (y % 8)
      outside += kernels.encodeLight(
        row,
        width,
        rows,
        steps,
        table.length,
        own,
        channels,
        bytes - 1,
        within,
        codes,
      )
      const made = memory.bytes(codes, channels * width * bytes)
      out.set(bytes === 1 ? made : new Uint16Array(made.buffer), channels * y * width)
    }
    return outside
  })
}

/** With the last value once more, for the steps that end there. */
function closed(table: Float32Array): Float32Array {
  const more = new Float32Array(table.length + 1)
  more.set(table)
  more[table.length] = table.at(-1) ?? 0
  return more
}
