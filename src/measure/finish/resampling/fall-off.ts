import type { Patch } from '../../../imaging/patch.ts'
import { powersAt } from '../../../numbers/powers-at.ts'
import { BLOCK_PX } from './tones.ts'

/** Pixels of a line that are transformed at a time. @choice a band then holds 8 frequencies. */
const LENGTH = 128

/** From one line that is read to the next. @choice fifty lines are enough. */
const EVERY = 16

/** Where bands begin, cycles per px. @choice the upper three octaves, evenly spaced but for what JPEG's blocks have */
const BANDS = [0.05, 0.12, 0.2, 0.28, 0.36, 0.43] as const

/** Width of a band, cycles per px. @choice as wide as they fit. */
const WIDTH = 0.06

/**
 * Weights of the falls from band to band.
 * @tuned on half of the sitters of 69 photographs, made smaller and larger, and tested on the others: a logistic regression gave 0.6, 3, 4.8,
 *   0.8 and -3.7, rounded here; the first is raised, so that what is three times as large falls early, too.
 */
const WEIGHTS: readonly number[] = [3, 3, 5, 0, -4]

/** Frequencies that are read, cycles per px. @choice those that LENGTH tells apart, in the bands. */
const FREQUENCIES = Array.from({ length: LENGTH / 2 }, (_, i) => i / LENGTH).filter(
  (frequency) => (frequency * BLOCK_PX) % 1 !== 0 && BANDS.some((band) => isIn(frequency, band)),
)

/**
 * How much the spectrum of the lines of some patches is that of an enlarged picture, which holds nothing beyond what the smaller one
 * could show, in weighted nepers: about 8 to 13 at its own size or made smaller, 15 to 22 made larger.
 */
export function earlyFallOff(patches: readonly Patch[]): number {
  const levels = levelsOf(patches)
  return WEIGHTS.reduce(
    (sum, weight, i) => sum + weight * ((levels[i] as number) - (levels[i + 1] as number)),
    0,
  )
}

/** Mean logarithm of the power in each band, without the multiples of 1/8, which JPEG's blocks have. */
function levelsOf(patches: readonly Patch[]): number[] {
  const powers = new Float64Array(FREQUENCIES.length)
  for (const { luma, width, height } of patches) {
    for (let y = 0; y < height; y += EVERY) {
      for (let left = 0; left + LENGTH <= width; left += LENGTH / 2) {
        const start = y * width + left
        powersAt(luma.subarray(start, start + LENGTH), FREQUENCIES).forEach((power, i) => {
          powers[i] = (powers[i] as number) + power
        })
      }
    }
  }
  const logs = Array.from(powers, (power) => Math.log(power + Number.MIN_VALUE))
  return BANDS.map((from) => {
    const inside = logs.filter((_, i) => isIn(FREQUENCIES[i] as number, from))
    return inside.reduce((sum, log) => sum + log, 0) / inside.length
  })
}

function isIn(frequency: number, band: number): boolean {
  return frequency >= band && frequency < band + WIDTH
}
