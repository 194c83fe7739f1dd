import { basename } from 'node:path'
import { movedFiles } from '../../changes/moved-files.ts'
import { changesSince, type Looked } from '../../changes/since.ts'
import type { Host } from '../../checking/host.ts'
import { UsageError } from '../../checking/usage-error.ts'
import type { Report } from '../../judge/report.ts'
import { reportReader } from './read-report.ts'

const WANTED = {
  instead: 'give --since a report that check or merge wrote with --format json',
  renew: 'check that delivery again with this version',
  smaller: 'it is too large to compare with',
}

/**
 * Reads the report that a check is to be compared with.
 * @throws UsageError when it can't be read, or is none on a delivery
 */
export async function readEarlier(path: string, host: Host): Promise<Report> {
  const report = await reportReader(host, WANTED)(path)
  if (report.part)
    throw new UsageError(
      `${path} is the report on part ${report.part.number} of ${report.part.of} of a delivery; merge the parts and give --since that report.`,
    )
  return report
}

/**
 * The report with what has changed since an earlier one.
 * @throws UsageError when the earlier one has nothing in common with it
 */
export function withSince(
  report: Report,
  { earlier, path, looked }: { earlier: Report; path: string; looked: Looked },
): Report {
  if (report.files.length > 0 && earlier.files.length > 0 && !isOfSame(report, earlier))
    throw new UsageError(
      `${path} has no file, no picture and no person in common with these portraits. Give --since an earlier report on the same delivery.`,
    )
  return { ...report, since: changesSince(report, earlier, basename(path), looked) }
}

function isOfSame(report: Report, earlier: Report): boolean {
  const known = new Set(earlier.files.flatMap(({ file, person }) => [`file ${file}`, `person ${person}`]))
  return (
    movedFiles(report, earlier).size > 0 ||
    report.files.some(
      ({ file, person }) => known.has(`file ${file}`) || (person !== null && known.has(`person ${person}`)),
    )
  )
}
