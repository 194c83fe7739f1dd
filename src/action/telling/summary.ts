import { forMarkdown } from '../../report/safe.ts'

// A step summary may have 1 MiB and is refused whole beyond it (github.com/actions/toolkit, packages/core, and GitHub
// Docs, "Workflow commands", step isolation and limits).
const MOST_BYTES = 900 * 1024

/**
 * The page that a workflow's run shows: the notes, then the report.
 * @param notes sentences; may hold text of strangers
 * @param report Markdown that is safe; null when nothing was judged
 */
export function summaryPage(notes: readonly string[], report: string | null, mostBytes = MOST_BYTES): string {
  const parts = [...notes.map((note) => `> ${forMarkdown(note)}`), ...(report === null ? [] : [report])]
  return fitted(`${parts.join('\n\n').trimEnd()}\n`, mostBytes)
}

/** Whole lines only, and a last one that says what is missing. */
function fitted(text: string, mostBytes: number): string {
  if (Buffer.byteLength(text) <= mostBytes) return text
  const rest =
    '\n\nThe rest is left out because a summary is limited to 1 MiB; the JSON report has everything.\n'
  const room = mostBytes - Buffer.byteLength(rest)
  // A code point that was cut in two would read as U+FFFD; it stands on the line that is left out.
  const start = Buffer.from(text).subarray(0, Math.max(0, room)).toString('utf8')
  return start.slice(0, Math.max(0, start.lastIndexOf('\n'))) + rest
}
