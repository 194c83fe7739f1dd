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
  const fix = textOf(leading, 'fix', ' ')
  return {
    verdict,
    measured: textOf(told, 'measured', ', ') || null,
    expected: textOf(told, 'expected', ', ') || null,
    reason: textOf(told, 'reason', ' '),
    ...(fix !== '' && { fix }),
    ...(figure && { figure }),
  }
}

type Told = 'measured' | 'expected' | 'reason' | 'fix'

/** What findings say, each text once. */
function textOf(findings: readonly Finding[], what: Told, between: string): string {
  const texts: string[] = []
  for (const { [what]: text } of findings) if (text != null && !texts.includes(text)) texts.push(text)
  return texts.join(between)
}
