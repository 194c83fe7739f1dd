import { count } from '../text/quantity.ts'
import type { PublishedReport } from './finding.ts'

/** The report to be read: what counts first, a line for each finding. */
export function publishedLines({ verdict, shown, approved, people, findings }: PublishedReport): string[] {
  const failing = findings.filter((one) => one.verdict === 'fail')
  const open = findings.filter((one) => one.verdict === 'unsure')
  const words = [
    ...(failing.length > 0 ? [count(failing.length, 'problem')] : []),
    ...(open.length > 0 ? [`${open.length} to be checked by eye`] : []),
  ]
  return [
    `${verdict.toUpperCase().padEnd(6)}  ${count(shown, 'picture')} shown, ${count(approved, 'file')} approved; ${count(people, 'person', 'people')} shown with an approved picture. ${words.length > 0 ? `${words.join(', ')}.` : 'All is as approved.'}`,
    ...[...failing, ...open].map(
      ({ verdict: one, file, person, message }) => `${one.padEnd(6)}  ${file ?? person ?? ''}: ${message}`,
    ),
  ]
}
