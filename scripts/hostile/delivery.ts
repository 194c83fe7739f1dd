import { mkdir, rm, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import type { Decodable } from '../../src/measure/schema/formats.ts'
import { pick, type Random } from '../../tests/long/fuzz/chance.ts'
import { withRightChecksums } from '../../tests/long/fuzz/mutators/fix-checksums.ts'
import { MUTATORS } from '../../tests/long/fuzz/mutators/index.ts'
import { seeded } from '../../tests/random.ts'

/** Mutators that make a picture costly rather than merely broken. */
const COSTLY = ['truncate', 'absurdSize', 'hostileXmp', 'repeatSlice', 'spoilDirectory'] as const
const HEAVY_SHARE = 0.6

/**
 * Writes a delivery of hostile pictures of one format: first the heavy ones as they are, then spoiled ones, made of
 * those and of small ones with rich metadata. The same seed gives the same files.
 */
export async function writeDelivery(
  { folder, format, count, seed }: { folder: string; format: Decodable; count: number; seed: number },
  heavy: readonly Buffer[],
  small: readonly Buffer[],
): Promise<void> {
  await rm(folder, { recursive: true, force: true })
  await mkdir(folder, { recursive: true })
  for (let number = 0; number < count; number++) {
    const random = seeded(seed ^ Math.imul(number + 1, 0x9e3779b1))
    const content = heavy[number] ?? spoiled(random() < HEAVY_SHARE ? heavy : small, random)
    await writeFile(join(folder, `${String(number).padStart(3, '0')}.${format}`), content)
  }
}

function spoiled(originals: readonly Buffer[], random: Random): Buffer {
  let content = pick(random, originals)
  do content = MUTATORS[pick(random, COSTLY)]?.(content, random) ?? content
  while (random() < 0.3 && content.length > 0)
  return random() < 0.7 ? withRightChecksums(content) : content
}
