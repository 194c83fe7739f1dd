import { createHash } from 'node:crypto'
import type { Report } from '../../judge/report.ts'

export interface DeliveryChecksum {
  readonly sha256: string
  /** Files that are in it. */
  readonly files: number
  /** Paths of the files that could not be read, and so are not in it. */
  readonly without: readonly string[]
}

/**
 * One number for the whole delivery: the SHA-256 (FIPS 180-4) of the lines "checksum  path" of its files, in the order
 * of their paths, each with a line feed, as `sha256sum` prints them; of those files that could be read.
 */
export function deliveryChecksum({ files }: Report): DeliveryChecksum {
  const hash = createHash('sha256')
  const without: string[] = []
  for (const { file, measurements } of files) {
    if (measurements.sha256 === null) without.push(file)
    else hash.update(`${measurements.sha256}  ${file}\n`)
  }
  return { sha256: hash.digest('hex'), files: files.length - without.length, without }
}
