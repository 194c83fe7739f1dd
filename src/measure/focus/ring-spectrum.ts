import { powerOfTwo, transform } from './fourier.ts'
import type { Patch } from './patch.ts'

/** Mean power of a patch over all directions, in a narrow range of frequencies. */
export interface Ring {
  /** Geometric mean of the frequencies, cycles per pixel, below 0.5. */
  readonly frequency: number
  /** Mean of |F|² over the ring, divided by the energy of the window: white noise of variance v has power v. Codes². */
  readonly power: number
}

const RINGS_PER_OCTAVE = 6

/**
 * Power spectrum of a patch in rings of equal width on a logarithmic scale, lowest frequency first. The patch is faded out
 * towards its border by a Hann window (Harris, Proceedings of the IEEE 66, 1978): the border of the patch is no edge.
 * @param lowest frequency from which rings are wanted, cycles per pixel
 */
export function ringSpectrum(patch: Patch, lowest: number): Ring[] {
  const count = Math.floor(RINGS_PER_OCTAVE * Math.log2(0.5 / lowest))
  if (patch.width < 8 || patch.height < 8 || !(count > 0)) return []
  const { re, im, columns, rows, energy } = rowTransforms(patch)
  const sums = {
    power: new Float64Array(count),
    logs: new Float64Array(count),
    bins: new Float64Array(count),
  }
  const columnRe = new Float64Array(rows)
  const columnIm = new Float64Array(rows)
  for (let u = 0; u <= columns / 2; u++) {
    for (let y = 0; y < rows; y++) {
      columnRe[y] = y < patch.height ? (re[y * columns + u] as number) : 0
      columnIm[y] = y < patch.height ? (im[y * columns + u] as number) : 0
    }
    transform(columnRe, columnIm)
    // A real patch has the same power at -u: one half stands for both.
    const bins = u === 0 || u === columns / 2 ? 1 : 2
    for (let v = 0; v < rows; v++) {
      const across = u / columns
      const down = (v <= rows / 2 ? v : v - rows) / rows
      const log = Math.log2(across * across + down * down) / 2
      const ring = Math.floor(RINGS_PER_OCTAVE * (-1 - log))
      if (ring < 0 || ring >= count) continue
      const power = (columnRe[v] as number) ** 2 + (columnIm[v] as number) ** 2
      sums.power[ring] = (sums.power[ring] as number) + bins * power
      sums.logs[ring] = (sums.logs[ring] as number) + bins * log
      sums.bins[ring] = (sums.bins[ring] as number) + bins
    }
  }
  return Array.from(sums.bins, (bins, ring) => ({
    frequency: 2 ** ((sums.logs[ring] as number) / bins),
    power: (sums.power[ring] as number) / bins / energy,
  }))
    .filter(({ power }) => Number.isFinite(power))
    .reverse()
}

interface RowTransforms {
  readonly re: Float64Array
  readonly im: Float64Array
  readonly columns: number
  readonly rows: number
  /** Sum of the squared window. */
  readonly energy: number
}

/** The windowed patch without its mean, each row transformed; columns and rows are what it is filled up to with zeros. */
function rowTransforms({ luma, width, height }: Patch): RowTransforms {
  const [across, down] = [hann(width), hann(height)]
  let sum = 0
  for (let i = 0, y = 0; y < height; y++) {
    for (let x = 0; x < width; x++, i++)
      sum += (across[x] as number) * (down[y] as number) * (luma[i] as number)
  }
  const total = (window: Float64Array, power: number) => window.reduce((all, w) => all + w ** power, 0)
  const mean = sum / (total(across, 1) * total(down, 1))
  const columns = powerOfTwo(width)
  const re = new Float64Array(columns * height)
  const im = new Float64Array(columns * height)
  for (let y = 0; y < height; y++) {
    const row = y * columns
    for (let x = 0; x < width; x++) {
      re[row + x] = (across[x] as number) * (down[y] as number) * ((luma[y * width + x] as number) - mean)
    }
    transform(re.subarray(row, row + columns), im.subarray(row, row + columns))
  }
  return { re, im, columns, rows: powerOfTwo(height), energy: total(across, 2) * total(down, 2) }
}

function hann(length: number): Float64Array {
  return Float64Array.from({ length }, (_, i) => Math.sin((Math.PI * (i + 0.5)) / length) ** 2)
}
