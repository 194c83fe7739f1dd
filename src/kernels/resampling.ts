import { withKernels } from './with-kernels.ts'

const FLOAT = Float32Array.BYTES_PER_ELEMENT
const WHOLE = Int32Array.BYTES_PER_ELEMENT

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

/** How linear light becomes codes. */
export interface Coding {
  /** From the light of one space to that of another: three columns of three numbers and a 0; with one channel the first row counts. */
  readonly columns: Float32Array
  /** Codes over the root of light, 0..1 in even steps, and the last one once more, for the steps that end there. */
  readonly table: Float32Array
  /** What is added before rounding down, by 8 rows and 8 columns. */
  readonly noise: Float32Array
  readonly channels: 1 | 3
  /** How far beyond 0..1 light may lie and still be in gamut. */
  readonly within: number
}

/**
 * A part of a picture made smaller along both axes in linear light, as codes of another space, which are written to `out`. Each row is finished
 * before the next one is begun, so that no picture in light is ever kept.
 * @returns how many pixels are out of gamut
 */
export function resampledCodes(
  { codes, widthPx, leftPx, topPx, light }: Part,
  [across, down]: readonly [Taps, Taps],
  { columns, table, noise, channels, within }: Coding,
  out: Uint8Array | Uint16Array,
): number {
  const [width, height] = [across.starts.length, down.starts.length]
  const outBytes = new Uint8Array(out.buffer, out.byteOffset, out.byteLength)
  const rowBytes = channels * width * out.BYTES_PER_ELEMENT
  return withKernels((kernels, memory) => {
    const [red, green, blue] = lightAt(light, memory.put)
    const input = memory.room(3 * across.from * codes.BYTES_PER_ELEMENT)
    const [starts, weights] = [memory.put(across.starts), memory.put(across.weights)]
    const nears = memory.put(across.nears)
    const [matrix, steps, noises] = [memory.put(columns), memory.put(table), memory.put(noise)]
    const [middle, row] = [memory.room(LIGHT * across.from), memory.room(LIGHT * width)]
    const made = memory.room(rowBytes)
    const places = memory.room(WHOLE * down.count)
    const downWeights = memory.put(down.weights)
    // Only the rows that some pixel still needs are kept.
    const kept = Array.from({ length: down.count }, () => memory.room(LIGHT * across.from))
    let next = 0
    let outside = 0
    for (let y = 0; y < height; y++) {
      const start = down.starts[y] as number
      for (next = Math.max(next, start); next < start + down.count; next++) {
        const at = 3 * ((topPx + next) * widthPx + leftPx)
        memory.fill(input, codes.subarray(at, at + 3 * across.from))
        const to = kept[next % down.count] as number
        kernels.lighten(input, across.from, codes.BYTES_PER_ELEMENT - 1, red, green, blue, to)
      }
      memory.fill(
        places,
        Int32Array.from({ length: down.count }, (_, k) => kept[(start + k) % down.count] as number),
      )
      kernels.weigh(places, LIGHT * across.from, downWeights + FLOAT * down.count * y, down.count, middle)
      const first = (down.nears[y] as number) - start
      if (down.near > 0) kernels.bound(places + WHOLE * first, down.near, LIGHT * across.from, middle)
      kernels.gather(middle, width, starts, weights, across.count, nears, across.near, row)
      const own = noises + 8 * FLOAT * (y % 8)
      const wide = out.BYTES_PER_ELEMENT - 1
      outside += kernels.encodeLight(
        ...([row, width, matrix, steps, table.length - 1] as const),
        ...([own, channels, wide, within, made] as const),
      )
      outBytes.set(memory.bytes(made, rowBytes), rowBytes * y)
    }
    return outside
  })
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
