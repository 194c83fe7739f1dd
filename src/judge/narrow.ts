import { type Report, summedUp } from './report.ts'

/**
 * The report on some of the files of a delivery and on the delivery as a whole, of one in which the other files were
 * measured only as far as the rules over the whole need it. What those other files would be told is left out: their
 * verdicts, the matrix, and waivers that cover nothing here.
 */
export function narrowed(report: Report, judged: ReadonlySet<string>): Report {
  const files = report.files.filter(({ file }) => judged.has(file))
  const delivery = { outcomes: report.delivery.outcomes, matrix: null }
  return {
    ...report,
    ...summedUp(files, delivery, report.files.length > 0),
    files,
    delivery,
    waivers: report.waivers.filter(({ state }) => state === 'expired'),
  }
}
