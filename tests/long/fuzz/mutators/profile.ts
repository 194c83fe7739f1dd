import { below, bytesOf, pick, type Random } from '../chance.ts'
import { extremeNumber } from './bytes.ts'
import type { Mutator } from './mutator.ts'

/** Where `acsp` stands in the header of an ICC profile (ICC.1:2022, 7.2). */
const SIGNATURE = 36

/** Spoils the ICC profile where it lies open: tag counts, offsets and sizes, curves, colorants, header fields. */
export const spoilProfile: Mutator = (content, random) => {
  const signature = content.indexOf('acsp', 0, 'latin1')
  if (signature < SIGNATURE) return extremeNumber(content, random)
  const copy = Buffer.from(content)
  const icc = copy.subarray(signature - SIGNATURE)
  if (icc.length < 300) return extremeNumber(content, random)
  const count = Math.min(icc.readUInt32BE(128), 20)
  const entry = 132 + 12 * below(random, Math.max(1, count))
  const number = () => pick(random, [0, 1, 0xffffffff, 0x7fffffff, below(random, 5000)])
  const changes: readonly (() => void)[] = [
    () => icc.writeUInt32BE(number(), 128),
    () => icc.writeUInt32BE(number(), entry + 4),
    () => icc.writeUInt32BE(number(), entry + 8),
    () => icc.writeUInt32BE(number(), 0),
    () =>
      icc.write(
        pick(random, ['GRAY', 'CMYK', 'Lab ', 'XYZ ', 'RGB ', 'zzzz']),
        pick(random, [16, 20]),
        'latin1',
      ),
    () => bytesOf(random, 8).copy(icc, below(random, 290)),
    () => spoilCurve(icc, random),
  ]
  for (let n = below(random, 3); n >= 0; n--) pick(random, changes)()
  return copy
}

function spoilCurve(icc: Buffer, random: Random): void {
  const at = Math.max(icc.indexOf('para', 0, 'latin1'), icc.indexOf('curv', 0, 'latin1'))
  if (at < 0 || at + 16 > icc.length) return
  icc.writeUInt32BE(pick(random, [0, 1, 4096, 0xffffffff, 0x80000000]), at + pick(random, [8, 12]))
}
