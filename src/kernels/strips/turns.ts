import { type LumaStrip, stripKernels } from './sides.ts'

/** A line whose depth is `start + slope x position`, of a slope up to 0.12, and how many bins of positions are read from `first` on. */
export interface BinnedLine {
  readonly start: number
  readonly slope: number
  readonly first: number
  readonly bins: number
}

/** How closely it is looked: at the middle eight of each of so many `blocks` of the `size` positions of a bin, as far as `reach` px from the line, 48 at most. */
export interface TurnLook {
  readonly size: number
  readonly blocks: number
  readonly reach: number
  /** Whether what is compared with the line is the geometric mean of both lines beside it, or the lesser, which chance takes for a line less often. */
  readonly isMean: boolean
}

/** How a line is told from its surroundings. */
export interface TurnReading {
  /** By how much farther inside or outside of the line nothing must mirror, px. */
  readonly away: number
  /** Squared differences between equal pixels, and detail from which on a bin is read, squared codes. */
  readonly noise: number
  readonly leastDetail: number
}

/** What speaks for pixels mirrored in a line, and for pixels repeated from it outward: between minus and plus what could tell at most. */
export interface TurnEvidence {
  readonly mirrored: number
  readonly mirroredMost: number
  readonly repeated: number
  readonly repeatedMost: number
}

/** Numbers of a line, and of what it tells. */
const [LINE, TOLD] = [4, 4]

const { kernels, memory } = stripKernels

/**
 * What a strip tells when the picture begins at each of some lines: over bins of positions, the logarithm of how much smaller the mean square of what
 * mirroring or repeating would make zero is than that of what it would not, and of how large that is beside noise. In single precision.
 */
export function turnEvidence(
  { luma, length, depth }: LumaStrip,
  lines: readonly BinnedLine[],
  { size, blocks, reach, isMean, away, noise, leastDetail }: TurnLook & TurnReading,
): TurnEvidence[] {
  const numbers = new Float64Array(LINE * lines.length)
  for (let k = 0; k < lines.length; k++) {
    const { start, slope, first, bins } = lines[k] as BinnedLine
    numbers[LINE * k] = start
    numbers[LINE * k + 1] = slope
    numbers[LINE * k + 2] = first
    numbers[LINE * k + 3] = bins
  }
  const before = kernels.taken()
  const at = memory.put(numbers)
  const room = memory.room(kernels.turnRoom())
  const out = memory.room(TOLD * Float32Array.BYTES_PER_ELEMENT * lines.length)
  kernels.turnEvidence(
    ...[luma, length, depth, at, lines.length, size, blocks, reach, away, noise, leastDetail, Number(isMean)],
    ...[room, out],
  )
  const told = memory.floats(out, TOLD * lines.length)
  kernels.giveBack(before)
  const all: TurnEvidence[] = []
  for (let k = 0; k < told.length; k += TOLD)
    all.push({
      mirrored: told[k] as number,
      mirroredMost: told[k + 1] as number,
      repeated: told[k + 2] as number,
      repeatedMost: told[k + 3] as number,
    })
  return all
}
