import type { Report } from './report.ts'
import { isWarning, verdictOf } from './verdict.ts'

/**
 * The report on some of the files of a delivery and on the delivery as a whole, of one in which the other files were
 * measured only as far as the rules over the whole need it. What those other files would be told is left out: their
 * verdicts, the matrix, and waivers that cover nothing here.
 */
export function narrowed(report: Report, judged: ReadonlySet<string>): Report {
  const files = report.files.filter(({ file }) => judged.has(file))
  const { outcomes } = report.delivery
  const having = (verdict: Report['verdict']) => files.filter((file) => file.verdict === verdict).length
  const all = [...files.flatMap((file) => file.outcomes), ...outcomes]
  const wholeIsJudged = outcomes.some(({ verdict }) => verdict !== 'skip')
  const verdicts = [...files.map(({ verdict }) => verdict), ...(wholeIsJudged ? [verdictOf(outcomes)] : [])]
  const worst = (['fail', 'unsure', 'pass'] as const).find((verdict) => verdicts.includes(verdict))
  return {
    ...report,
    // Nothing judged is nothing passed.
    verdict: worst ?? 'unsure',
    totals: {
      files: files.length,
      pass: having('pass'),
      fail: having('fail'),
      unsure: having('unsure'),
      warnings: all.filter(isWarning).length,
      waived: all.filter(({ waiver }) => waiver !== undefined).length,
    },
    files,
    delivery: { outcomes, matrix: null },
    waivers: report.waivers.filter(({ state }) => state === 'expired'),
  }
}
