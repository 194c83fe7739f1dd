import { seeded } from '../../random.ts'
import { pick } from './chance.ts'
import { withRightChecksums } from './mutators/fix-checksums.ts'
import { MUTATORS } from './mutators/index.ts'
import { truncated } from './mutators/truncate.ts'
import type { Original } from './originals.ts'

/** A spoiled file. */
export interface Mutant {
  readonly original: Original
  /** How it was spoiled. */
  readonly by: string
  readonly content: Buffer
}

/** Every tenth file is one of the cuts at each hundredth of each original, one after the other. */
const CUTS = 10

/** The file of a number, from 0, within the campaign of a seed: always the same one. */
export function mutant(number: number, seed: number, originals: readonly Original[]): Mutant {
  if (number % CUTS === 0) return cut(number / CUTS, originals)
  const random = seeded(seed ^ Math.imul(number + 1, 0x9e3779b1))
  const original = pick(random, originals)
  const by: string[] = []
  let { content } = original
  do {
    const name = pick(random, Object.keys(MUTATORS))
    const next = MUTATORS[name]?.(content, random) ?? content
    if (next.length === 0) break
    by.push(name)
    content = next
  } while (random() < 0.3)
  const fixed = random() < 0.5
  return { original, by: by.join('+'), content: fixed ? withRightChecksums(content) : content }
}

function cut(number: number, originals: readonly Original[]): Mutant {
  const original = originals[number % originals.length] as Original
  const percent = 1 + (Math.floor(number / originals.length) % 99)
  return { original, by: `cut at ${percent} %`, content: truncated(original.content, percent) }
}
