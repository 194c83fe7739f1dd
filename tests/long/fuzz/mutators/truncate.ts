import { below } from '../chance.ts'
import type { Mutator } from './mutator.ts'

/** The content up to so many hundredths of its length. */
export function truncated(content: Buffer, percent: number): Buffer {
  return content.subarray(0, Math.floor((content.length * percent) / 100))
}

/** Cut anywhere, as a copy that was broken off leaves it; with zeros to its full length at times. */
export const truncate: Mutator = (content, random) => {
  const cut = content.subarray(0, below(random, content.length))
  return random() < 0.7 ? cut : Buffer.concat([cut, Buffer.alloc(content.length - cut.length)])
}
