import type { Profile } from '../../schema/measurements.ts'
import { findBoxes } from '../bytes/boxes.ts'
import type { PngChunk } from '../bytes/png.ts'

/** Code points of primaries. @source ITU-T H.273 (ISO/IEC 23091-2), Table 2. */
const PRIMARIES = { bt709: 1, unspecified: 2, displayP3: 12 }
/** Code points of transfer characteristics. @source ITU-T H.273 (ISO/IEC 23091-2), Table 3. */
const TRANSFER = { unspecified: 2, srgb: 13 }

/** The space that a pair of code points stands for; null when they leave it open. */
export function spaceOfCodePoints(primaries: number, transfer: number): Profile | null {
  if (primaries === PRIMARIES.unspecified && transfer === TRANSFER.unspecified) return null
  if (transfer !== TRANSFER.srgb) return 'other'
  if (primaries === PRIMARIES.bt709) return 'sRGB'
  return primaries === PRIMARIES.displayP3 ? 'Display P3' : 'other'
}

/** By a `cICP` chunk, else by an `sRGB` chunk. PNG, third edition, 11.3.2.6 and 11.3.2.5. */
export function statedByPng(chunks: readonly PngChunk[]): Profile | null {
  const points = chunks.find(({ type }) => type === 'cICP')?.data
  if (points && points.length >= 2) return spaceOfCodePoints(points.readUInt8(0), points.readUInt8(1))
  return chunks.some(({ type }) => type === 'sRGB') ? 'sRGB' : null
}

/** By the `nclx` color boxes of its items; `other` when they disagree. @source ISO/IEC 14496-12, 12.1.5. */
export function statedByAvif(content: Buffer): Profile | null {
  const stated = findBoxes(content, ['meta', 'iprp', 'ipco', 'colr'])
    .filter((box) => box.length >= 8 && box.toString('latin1', 0, 4) === 'nclx')
    .map((box) => spaceOfCodePoints(box.readUInt16BE(4), box.readUInt16BE(6)))
  const [first = null, ...others] = stated
  return others.every((space) => space === first) ? first : 'other'
}
