import { checkFramesShowing, framesExit } from '../checking/check-frames.ts'
import type { Host } from '../checking/host.ts'
import type { MeasuringOptions } from '../checking/means.ts'
import { UsageError } from '../checking/usage-error.ts'
import type { Found } from '../delivery/walk.ts'
import type { Standard } from '../judge/standard.ts'
import { cardCsv } from '../report/frames/card-csv.ts'
import { cardMarkdown } from '../report/frames/card-markdown.ts'
import { cardTable } from '../report/frames/card-table.ts'
import { forJson } from '../report/safe.ts'
import { listed } from '../text/quantity.ts'
import type { Format } from './formats.ts'
import { type Sink, writeSinks } from './outputs.ts'

const FRAME_FORMATS = ['table', 'json', 'markdown', 'csv'] as const
type FrameFormat = (typeof FRAME_FORMATS)[number]

/**
 * The sinks of a check of frames.
 * @throws UsageError for a format that there is only of deliveries
 */
export function frameSinks(sinks: readonly Sink<Format>[]): Sink<FrameFormat>[] {
  return sinks.map(({ format, file }) => {
    const known = FRAME_FORMATS.find((one) => one === format)
    if (known) return { format: known, file }
    throw new UsageError(`--frames has no format ${format}; choose ${listed(FRAME_FORMATS, 'or')}.`)
  })
}

/** What a check of frames can't be combined with, by the names of the options. @throws UsageError */
export function refuseBesideFrames(given: Readonly<Record<string, unknown>>): void {
  for (const [name, value] of Object.entries(given))
    if (value !== undefined && value !== false && value !== null)
      throw new UsageError(`--frames and --${name} cannot be combined; leave one out.`)
}

/** Judges the frames of a card, writes what there is to say of them, and gives the exit code. */
export async function checkCard(
  check: { readonly found: Found; readonly standard: Standard; readonly strict: boolean },
  measuring: MeasuringOptions,
  outputs: readonly Sink<FrameFormat>[],
  host: Host,
): Promise<number> {
  const report = await checkFramesShowing(check, measuring, host)
  await writeSinks(
    outputs,
    (format, layout) => {
      switch (format) {
        case 'json':
          return `${forJson(JSON.stringify(report, null, 2))}\n`
        case 'table':
          return cardTable(report, layout)
        case 'markdown':
          return cardMarkdown(report)
        case 'csv':
          return cardCsv(report)
      }
    },
    host,
  )
  return framesExit(report)
}
