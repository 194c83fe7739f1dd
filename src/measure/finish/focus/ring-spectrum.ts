import { powerOfTwo, transform } from '../../../numbers/fourier.ts'
import type { Patch } from './patch.ts'
import { RINGS_PER_OCTAVE, ringsOf } from './rings-of.ts'

/** Mean power of a patch over all directions, in a narrow range of frequencies. */
export interface Ring {
  /** Geometric mean of the frequencies, cycles per pixel, below 0.5. */
  readonly frequency: number
  /** Mean of |F|² over the ring, divided by the energy of the window: white noise of variance v has power v. Codes². */
  readonly power: number
}

/** Smallest patch that has a spectrum, px. @choice no source: fewer pixels have no ring that is not at the border. */
const LEAST_EDGE = 8

/**
 * Power spectrum of a patch in rings of equal width on a logarithmic scale, lowest frequency first. The patch is faded out
 * towards its border by a Hann window (Harris, Proceedings of the IEEE 66, 1978): the border of the patch is no edge.
 * @param lowest frequency from which rings are wanted, cycles per pixel
 */
export function ringSpectrum(patch: Patch, lowest: number): Ring[] {
  const count = Math.floor(RINGS_PER_OCTAVE * Math.log2(0.5 / lowest))
  if (patch.width < LEAST_EDGE || patch.height < LEAST_EDGE || !(count > 0)) return []
  const { re, im, columns, rows, energy } = columnsOfRows(patch)
  const { ringAt, frequencies, bins } = ringsOf(columns, rows)
  const powers = new Float64Array(bins.length)
  const half = rows / 2
  for (let u = 0; u <= columns / 2; u++) {
    const columnRe = re.subarray(u * rows, (u + 1) * rows)
    const columnIm = im.subarray(u * rows, (u + 1) * rows)
    transform(columnRe, columnIm)
    // A real patch has the same power at (-u, -v): one half stands for both. (u, -v) lies in the same ring.
    const weight = u === 0 || u === columns / 2 ? 1 : 2
    for (let v = 0, at = u * (half + 1); v <= half; v++, at++) {
      const ring = ringAt[at] as number
      if (ring >= count) continue
      let power = (columnRe[v] as number) ** 2 + (columnIm[v] as number) ** 2
      if (v > 0 && v < half)
        power += (columnRe[rows - v] as number) ** 2 + (columnIm[rows - v] as number) ** 2
      powers[ring] = (powers[ring] as number) + weight * power
    }
  }
  return Array.from({ length: count }, (_, ring) => ({
    frequency: frequencies[ring] as number,
    power: (powers[ring] as number) / (bins[ring] as number) / energy,
  }))
    .filter(({ power }) => Number.isFinite(power))
    .reverse()
}

interface Columns {
  /** Column after column, from the frequency 0 across to the highest; each is filled up with zeros. */
  readonly re: Float64Array
  readonly im: Float64Array
  /** What columns and rows are filled up to. */
  readonly columns: number
  readonly rows: number
  /** Sum of the squared window. */
  readonly energy: number
}

/**
 * The columns of the windowed patch without its mean, each row transformed. Two rows at a time, as real and imaginary part
 * of one: the transform of a real row is Hermitian, which tells them apart (Cooley, Lewis and Welch, Journal of Sound and
 * Vibration 12, 1970).
 */
function columnsOfRows({ luma, width, height }: Patch): Columns {
  const [across, down] = [hann(width), hann(height)]
  let sum = 0
  for (let i = 0, y = 0; y < height; y++) {
    for (let x = 0; x < width; x++, i++)
      sum += (across[x] as number) * (down[y] as number) * (luma[i] as number)
  }
  const total = (window: Float64Array, power: number) => window.reduce((all, w) => all + w ** power, 0)
  const mean = sum / (total(across, 1) * total(down, 1))
  const [columns, rows] = [powerOfTwo(width), powerOfTwo(height)]
  const re = new Float64Array((columns / 2 + 1) * rows)
  const im = new Float64Array((columns / 2 + 1) * rows)
  const upper = new Float64Array(columns)
  const lower = new Float64Array(columns)
  const fill = (row: Float64Array, y: number) => {
    row.fill(0)
    if (y >= height) return
    for (let x = 0; x < width; x++)
      row[x] = (across[x] as number) * (down[y] as number) * ((luma[y * width + x] as number) - mean)
  }
  for (let y = 0; y < height; y += 2) {
    fill(upper, y)
    fill(lower, y + 1)
    transform(upper, lower)
    for (let u = 0; u <= columns / 2; u++) {
      const mirrored = (columns - u) % columns
      const [a, b] = [upper[u] as number, lower[u] as number]
      const [c, d] = [upper[mirrored] as number, lower[mirrored] as number]
      const at = u * rows + y
      re[at] = (a + c) / 2
      im[at] = (b - d) / 2
      re[at + 1] = (b + d) / 2
      im[at + 1] = (c - a) / 2
    }
  }
  return { re, im, columns, rows, energy: total(across, 2) * total(down, 2) }
}

function hann(length: number): Float64Array {
  return Float64Array.from({ length }, (_, i) => Math.sin((Math.PI * (i + 0.5)) / length) ** 2)
}
