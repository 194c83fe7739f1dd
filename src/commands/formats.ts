import { UsageError } from '../checking/usage-error.ts'
import { PORTRAITS_PER_PAGE } from '../report/html/per-page.ts'
import type { Sink } from './outputs.ts'

export const FORMATS = ['table', 'json', 'markdown', 'html', 'junit', 'csv', 'renames'] as const
export type Format = (typeof FORMATS)[number]
export const EXTENSIONS: Readonly<Record<string, Format>> = {
  '.txt': 'table',
  '.json': 'json',
  '.md': 'markdown',
  '.html': 'html',
  '.xml': 'junit',
  '.csv': 'csv',
  '.sh': 'renames',
}

/** Formats that tell each file's SHA-256, or need it to find the picture again, and tell in words what passes. */
export const DETAILED: readonly Format[] = ['json', 'html']

/** What the option says of itself. */
export const ALL = 'tell every finding in full in table and Markdown, also of long lists'

/** Several pages can't be printed one after the other. Said before the portraits are measured. */
export function refusePages(outputs: readonly Sink<Format>[], portraits: number): void {
  if (!outputs.some(({ format, file }) => format === 'html' && file === null)) return
  throw new UsageError(
    `The HTML report on ${portraits} portraits has several pages (${PORTRAITS_PER_PAGE} portraits each); give it an --output FILE.`,
  )
}
