import type { Patch } from '../../../imaging/patch.ts'
import { ringPowers, type Window } from '../../../kernels/ring-power.ts'
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
export function ringSpectrum({ luma: data, width, height }: Patch, lowest: number): Ring[] {
  const count = Math.floor(RINGS_PER_OCTAVE * Math.log2(0.5 / lowest))
  if (width < LEAST_EDGE || height < LEAST_EDGE || !(count > 0)) return []
  const window = windowOf(width, height)
  const { ringAt, frequencies, bins } = ringsOf(window.columns, window.rows)
  const powers = ringPowers({ data, width, height }, window, ringAt, count)
  const energy = energyOf(window.across) * energyOf(window.down)
  const rings: Ring[] = []
  for (let ring = count - 1; ring >= 0; ring--) {
    const power = (powers[ring] as number) / (bins[ring] as number) / energy
    if (Number.isFinite(power)) rings.push({ frequency: frequencies[ring] as number, power })
  }
  return rings
}

function windowOf(width: number, height: number): Window {
  return {
    across: hann(width),
    down: hann(height),
    columns: powerOfTwo(width),
    rows: powerOfTwo(height),
  }
}

function energyOf(window: Float32Array): number {
  let energy = 0
  for (const weight of window) energy += weight ** 2
  return energy
}

function hann(length: number): Float32Array {
  const window = new Float32Array(length)
  for (let i = 0; i < length; i++) window[i] = Math.sin((Math.PI * (i + 0.5)) / length) ** 2
  return window
}

/** The smallest power of two that is not below a count. */
function powerOfTwo(count: number): number {
  return 2 ** Math.ceil(Math.log2(Math.max(1, count)))
}
