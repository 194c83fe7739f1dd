import { below, bytesOf, pick, span } from '../chance.ts'
import type { Mutator } from './mutator.ts'

/** One to eight bits the other way round, anywhere. */
export const flipBits: Mutator = (content, random) => flipped(content, random, content.length)

/** The same within the first two kilobytes, where headers stand. */
export const flipHeadBits: Mutator = (content, random) => {
  return flipped(content, random, Math.min(2048, content.length))
}

function flipped(content: Buffer, random: () => number, within: number): Buffer {
  const copy = Buffer.from(content)
  for (let n = below(random, 8); n >= 0; n--) {
    const at = below(random, within)
    copy.writeUInt8((copy[at] as number) ^ (1 << below(random, 8)), at)
  }
  return copy
}

/** A run of zeros, of ones or of anything, as bad storage leaves it. */
export const overwrite: Mutator = (content, random) => {
  const copy = Buffer.from(content)
  const [from, to] = span(random, copy.length, 512)
  const run = pick(random, [Buffer.alloc(1), Buffer.alloc(1, 0xff), bytesOf(random, to - from)])
  return copy.fill(run, from, to)
}

export const removeSlice: Mutator = (content, random) => {
  const [from, to] = span(random, content.length, 512)
  return Buffer.concat([content.subarray(0, from), content.subarray(to)])
}

export const repeatSlice: Mutator = (content, random) => {
  const [from, to] = span(random, content.length, 256)
  const slice = content.subarray(from, to)
  const times = pick(random, [1, 2, 10, 300])
  return Buffer.concat([content.subarray(0, to), ...Array<Buffer>(times).fill(slice), content.subarray(to)])
}

export const swapSlices: Mutator = (content, random) => {
  const copy = Buffer.from(content)
  const length = 1 + below(random, Math.min(64, Math.floor(copy.length / 2)))
  const [one, other] = [below(random, copy.length - length), below(random, copy.length - length)]
  copy.set(content.subarray(one, one + length), other)
  copy.set(content.subarray(other, other + length), one)
  return copy
}

// Ends of ranges, where a sign, a sum or a product runs over.
const NUMBERS = [
  0, 1, 2, 0x7f, 0x80, 0xff, 0x7fff, 0x8000, 0xffff, 0x10000, 0x7fffffff, 0x80000000, 0xffffffff,
]

/** A number at the end of a range, in either byte order. */
export const extremeNumber: Mutator = (content, random) => {
  const copy = Buffer.from(content)
  const size = pick(random, [1, 2, 4])
  const at = below(random, Math.max(1, Math.min(4096, copy.length) - size))
  const value = pick(random, NUMBERS) % 2 ** (8 * size)
  if (random() < 0.5) copy.writeUIntLE(value, at, size)
  else copy.writeUIntBE(value, at, size)
  return copy
}
