import { partsOf } from '../parts.ts'
import type { Told } from './exiftool.ts'

const BYTES = 9

/**
 * What ExifTool tells of a PNG, by the first of its pHYs chunks where a later one is longer than the 9 bytes that it may
 * have (PNG, third edition, 11.3.4.3): a file may have one, of which libpng takes the first and leaves what has another
 * length (png_handle_pHYs). ExifTool shows the last, whatever its length.
 */
export function byFirstPhysical(told: Told, content: Buffer): Told {
  if (content[0] !== 0x89) return told
  const parts = partsOf(content).map(({ from, to }) => content.subarray(from, to))
  const [first, ...others] = parts.filter((part) => part.toString('latin1', 4, 8) === 'pHYs')
  if (first?.readUInt32BE(0) !== BYTES) return told
  if (!others.some((part) => part.readUInt32BE(0) > BYTES)) return told
  return new Map(told).set('PNG-pHYs:PixelsPerUnitX', String(first.readUInt32BE(8)))
}
