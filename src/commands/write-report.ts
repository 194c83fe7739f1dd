import { basename } from 'node:path'
import type { Host } from '../checking/host.ts'
import type { FoundFile } from '../delivery/walk.ts'
import type { Report } from '../judge/report.ts'
import type { Pictures } from '../report/html/pictures.ts'
import type { Format } from './formats.ts'
import { formatted } from './formatted.ts'
import { type Sink, writeSinks } from './outputs.ts'

export interface Written {
  /** When it was judged. */
  readonly at: Date
  /** The portraits, for the pages that show them; none where parts are put together. */
  readonly portraits: readonly FoundFile[]
  /** Whether formats to be read tell every finding in full. */
  readonly all?: boolean
}

/**
 * Writes a report in all formats that are asked for.
 * @throws UsageError when a file can't be written
 */
export async function writeReport(
  report: Report,
  sinks: readonly Sink<Format>[],
  { at, portraits, all = false }: Written,
  host: Host,
): Promise<void> {
  const html = portraits.length > 0 && sinks.some(({ format }) => format === 'html')
  const pictures: Pictures = html ? await picturesFor(report, portraits, host) : new Map()
  await writeSinks(
    sinks,
    (format, layout, file) => {
      const name = file === null ? 'report.html' : basename(file)
      return formatted(report, format, layout, { pictures, at, name, all })
    },
    host,
  )
}

async function picturesFor(report: Report, portraits: readonly FoundFile[], host: Host): Promise<Pictures> {
  // Loaded for this report alone: it brings the picture library along.
  const { makePictures } = await import('../report/html/pictures.ts')
  return makePictures(report, portraits, host.signal)
}
