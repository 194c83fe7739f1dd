import type { Finding, Verdict } from '../contract/outcome.ts'

// What decides when several questions are asked at once: one miss is a miss, whatever else is unknown.
const WEIGHT: readonly Verdict[] = ['fail', 'unsure', 'pass', 'skip']

/**
 * One finding of a rule that asks several things: the weightiest verdict, with all that is missed or unknown, and not a word of
 * what is met beside it. Its figure is the first of those that led to the verdict.
 * @throws Error when there is no finding
 */
export function combined(findings: readonly Finding[]): Finding {
  const [first, ...more] = findings
  if (!first) throw new Error('A rule asked nothing, so there is no finding.')
  if (more.length === 0) return first
  const verdict = WEIGHT.find((one) => findings.some((finding) => finding.verdict === one)) ?? first.verdict
  const leading = findings.filter((finding) => finding.verdict === verdict)
  const open = findings.filter((finding) => finding.verdict === 'fail' || finding.verdict === 'unsure')
  const told = open.length > 0 ? open : leading
  const { figure } = leading[0] ?? first
  const fix = joined(
    leading.map((one) => one.fix),
    ' ',
  )
  const measured = told.map((one) => one.measured)
  const expected = told.map((one) => one.expected)
  const reasons = told.map(({ reason }) => reason)
  return {
    verdict,
    measured: joined(measured, ', ') || null,
    expected: joined(expected, ', ') || null,
    reason: joined(reasons, ' '),
    ...(fix !== '' && { fix }),
    ...(figure && { figure }),
  }
}

/** Each text once. */
function joined(texts: readonly (string | null | undefined)[], between: string): string {
  return texts.filter((text, i) => text != null && texts.indexOf(text) === i).join(between)
}
