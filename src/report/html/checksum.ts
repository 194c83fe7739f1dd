import { createHash } from 'node:crypto'
import type { Report } from '../../judge/report.ts'

/**
 * One number for the whole delivery: the SHA-256 (FIPS 180-4) of the lines "checksum  path" of its files, in the order
 * of their paths, each with a line feed, as `sha256sum` prints them. Null when a file could not be read.
 */
export function deliveryChecksum({ files }: Report): string | null {
  const hash = createHash('sha256')
  for (const { file, measurements } of files) {
    if (measurements.sha256 === null) return null
    hash.update(`${measurements.sha256}  ${file}\n`)
  }
  return hash.digest('hex')
}
