import { below, bytesOf, pick, type Random } from '../chance.ts'
import { type Part, partsOf } from '../parts.ts'
import { extremeNumber, swapSlices } from './bytes.ts'
import type { Mutator } from './mutator.ts'

/** Parts in another order, twice, or missing. */
export const moveParts: Mutator = (content, random) => {
  const parts = partsOf(content)
  if (parts.length < 2) return swapSlices(content, random)
  const one = pick(random, parts)
  const other = pick(random, parts)
  const [first, second] = one.from <= other.from ? [one, other] : [other, one]
  const of = ({ from, to }: Part) => content.subarray(from, to)
  const before = content.subarray(0, first.from)
  const between = content.subarray(first.to, Math.max(first.to, second.from))
  const after = content.subarray(Math.max(first.to, second.to))
  return Buffer.concat(
    pick(random, [
      [before, of(second), between, of(first), after],
      [before, of(first), of(first), content.subarray(first.to)],
      [before, content.subarray(first.to)],
      [before, ...Array<Buffer>(50).fill(of(first)), content.subarray(first.to)],
    ]),
  )
}

/** A part that claims to be longer or shorter than it is. */
export const wrongLength: Mutator = (content, random) => {
  const parts = partsOf(content).filter(({ length }) => length.at + length.bytes <= content.length)
  if (parts.length === 0) return extremeNumber(content, random)
  const copy = Buffer.from(content)
  const { at, bytes, littleEndian } = pick(random, parts).length
  const there = littleEndian ? copy.readUIntLE(at, bytes) : copy.readUIntBE(at, bytes)
  const most = 2 ** (8 * bytes) - 1
  const value = pick(random, [0, 1, 2, there - 1, there + 1, 2 * there, most, most - 7, below(random, most)])
  const fits = Math.min(most, Math.max(0, value))
  if (littleEndian) copy.writeUIntLE(fits, at, bytes)
  else copy.writeUIntBE(fits, at, bytes)
  return copy
}

/** A part of a kind that nobody knows, or one kind taken for another. */
export const renamePart: Mutator = (content, random) => {
  const parts = partsOf(content)
  if (parts.length === 0) return extremeNumber(content, random)
  const copy = Buffer.from(content)
  const part = pick(random, parts)
  if (part.length.bytes === 2) copy.writeUInt8(0xc0 + below(random, 0x40), part.from + 1)
  else nameOf(pick(random, parts), content, random).copy(copy, nameAt(part))
  return copy
}

/** The four letters stand before a length that is little-endian (RIFF), and after one that is not. */
const nameAt = ({ length }: Part) => (length.littleEndian ? length.at - 4 : length.at + 4)

function nameOf(part: Part, content: Buffer, random: Random): Buffer {
  return random() < 0.7 ? content.subarray(nameAt(part), nameAt(part) + 4) : bytesOf(random, 4)
}
