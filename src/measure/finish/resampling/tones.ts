import { powersAt } from '../../../numbers/powers-at.ts'
import { median } from '../../../numbers/quantile.ts'

/** Pixels along a side of a block of JPEG. @source ITU-T T.81, A.1.1. */
export const BLOCK_PX = 8

/** The same of blocks of color, which may hold half as many pixels. @source ITU-T T.81, A.1.1, and 4:2:0 in JFIF 1.02. */
const MOST_BLOCK_PX = 16

/** Parts of a cycle per px within which powers are alike. @choice 1/32, a quarter of the way from one multiple of 1/8 to the next. */
const PARTS = 32

/**
 * How far from a multiple of 1/16 nothing is read, in steps of the resolution: a file's own blocks are heard there.
 * @tuned on 79 photographs at their own size: theirs reach to 4
 */
const BESIDE_BLOCKS = 5

/** Lowest frequency that is read, cycles per px. @choice just above a block's: below is how a face is built. */
const LOWEST = 0.13

/** What turns the median of an exponential distribution, as the power of noise has, into its mean. @source ln 2, the median for a mean of 1. */
const MEDIAN_TO_MEAN = 1 / Math.LN2

/** Steps in which frequencies are read, of the resolution. @choice half: between two of them a tone loses a tenth of its power. */
const STEPS = 0.5

/**
 * The strongest tone that all rhythms have: its power at one frequency, times that of the frequencies around it, in the rhythm in which it is
 * weakest. 1 in the mean of all frequencies where nothing repeats. What repeats with the file's own blocks doesn't count.
 * @param rhythms across and down; a picture that was resized repeats alike in both
 */
export function strongestTone(rhythms: readonly Float64Array[]): number {
  const length = Math.max(...rhythms.map((rhythm) => rhythm.length))
  const frequencies: number[] = []
  for (let frequency = LOWEST; frequency < 0.5; frequency += STEPS / length) frequencies.push(frequency)
  const tones = rhythms.map((rhythm) => tonesOf(rhythm, frequencies))
  return Math.max(0, ...frequencies.map((_, i) => Math.min(...tones.map((tone) => tone[i] as number))))
}

/** The tones of one rhythm at evenly spaced frequencies, cycles per px; 0 beside multiples of 1/16. */
function tonesOf(rhythm: Float64Array, frequencies: readonly number[]): number[] {
  const powers = powersAt(rhythm, frequencies)
  const isHeard = frequencies.map((frequency) => {
    const blocks = frequency * MOST_BLOCK_PX
    return Math.abs(blocks - Math.round(blocks)) * rhythm.length > BESIDE_BLOCKS * MOST_BLOCK_PX
  })
  const partOf = (frequency: number) => Math.floor(frequency * PARTS)
  const levels = Array.from({ length: PARTS / 2 }, (_, part) => {
    const heard = [...powers].filter((_, i) => isHeard[i] && partOf(frequencies[i] as number) === part)
    return heard.length === 0 ? Infinity : Math.max(MEDIAN_TO_MEAN * median(heard), Number.MIN_VALUE)
  })
  // Width and height of an enlarged picture are rounded to whole px, so that its tones may be off by a step.
  return frequencies.map((frequency, i) =>
    isHeard[i]
      ? Math.max(...powers.subarray(Math.max(0, i - 1), i + 2)) / (levels[partOf(frequency)] as number)
      : 0,
  )
}
