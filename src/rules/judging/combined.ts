import type { Finding, Verdict } from '../contract/outcome.ts'

// What decides when several questions are asked at once: one miss is a miss, whatever else is unknown.
const WEIGHT: readonly Verdict[] = ['fail', 'unsure', 'pass', 'skip']

/**
 * One finding of a rule that asks several things: the weightiest verdict, with all that was measured and asked, and the
 * reasons and fixes of those that led to it. Its figure is the first of those.
 * @throws Error when there is no finding
 */
export function combined(findings: readonly Finding[]): Finding {
  const [first, ...more] = findings
  if (!first) throw new Error('A rule asked nothing, so there is no finding.')
  if (more.length === 0) return first
  const verdict = WEIGHT.find((one) => findings.some((finding) => finding.verdict === one)) ?? first.verdict
  const leading = findings.filter((finding) => finding.verdict === verdict)
  const { figure } = leading[0] ?? first
  const fix = unique(leading.map((finding) => finding.fix)).join(' ')
  return {
    verdict,
    measured: unique(findings.map(({ measured }) => measured)).join(', ') || null,
    expected: unique(findings.map(({ expected }) => expected)).join(', ') || null,
    reason: unique(leading.map(({ reason }) => reason)).join(' '),
    ...(fix !== '' && { fix }),
    ...(figure && { figure }),
  }
}

function unique(texts: readonly (string | null | undefined)[]): string[] {
  return [...new Set(texts.filter((text) => text !== null && text !== undefined))]
}
