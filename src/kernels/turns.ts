import { withKernels } from './memory.ts'

/** A line whose depth is `start + slope x position`, of a slope up to 0.12, and how many bins of positions are read from `first` on. */
interface Line {
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

/** Numbers of a line. */
const TOLD = 4

/**
 * What a strip tells when the picture begins at each of some lines: over bins of positions, the logarithm of how much smaller the mean square of what
 * mirroring or repeating would make zero is than that of what it would not, and of how large that is beside noise. In single precision.
 * @param luma sixteenths of a code, `[inward * length + along]`
 */
export function turnEvidence(
  { luma, length, depth }: { readonly luma: Int16Array; readonly length: number; readonly depth: number },
  lines: readonly Line[],
  { size, blocks, reach, isMean, away, noise, leastDetail }: TurnLook & TurnReading,
): TurnEvidence[] {
  return withKernels((kernels, memory) => {
    const strip = memory.put(luma)
    const room = memory.room(kernels.turnRoom())
    const out = memory.room(TOLD * Float32Array.BYTES_PER_ELEMENT * lines.length)
    for (const [k, { start, slope, first, bins }] of lines.entries()) {
      const to = out + TOLD * Float32Array.BYTES_PER_ELEMENT * k
      const looked = [first, bins, size, blocks, reach, away, noise, leastDetail, Number(isMean), room, to]
      kernels.turnEvidence(strip, length, depth, start, slope, ...looked)
    }
    const told = memory.floats(out, TOLD * lines.length)
    const at = (k: number) => told[k] as number
    return lines.map((_, line) => {
      const k = TOLD * line
      return { mirrored: at(k), mirroredMost: at(k + 1), repeated: at(k + 2), repeatedMost: at(k + 3) }
    })
  })
}
