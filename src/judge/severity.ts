import type { Outcome } from '../rules/contract/outcome.ts'
import { SEVERITIES } from '../rules/contract/severity.ts'
import { ALL_RULES } from '../rules/delivery-index.ts'
import { byCodePoint } from '../text/code-points.ts'
import { isMiss, isWarning, type Verdict } from './verdict.ts'

const RANKS: ReadonlyMap<string, number> = new Map(
  ALL_RULES.map(({ id, severity }) => [id, SEVERITIES.indexOf(severity)]),
)
const MILDEST = SEVERITIES.length - 1

/** How bad a miss of a rule is, 0 the worst. */
export function severityRank(rule: string): number {
  return RANKS.get(rule) ?? MILDEST
}

interface Judged {
  readonly file: string
  readonly verdict: Verdict
  readonly measurements: { readonly fault: unknown }
}

/**
 * Files in the order in which to look at them: by verdict, warnings before none; then by the worst of the misses that
 * decide it, where a file that can't be read is the worst; then by their number; then by path.
 * @param findings all that is said of each file, by its path
 */
export function worstFirst<F extends Judged>(
  files: readonly F[],
  findings: ReadonlyMap<string, readonly Outcome[]>,
): F[] {
  const graded = files.map((file) => ({ file, grades: gradesOf(file, findings.get(file.file) ?? []) }))
  graded.sort((a, b) => compare(a.grades, b.grades) || byCodePoint(a.file.file, b.file.file))
  return graded.map(({ file }) => file)
}

/** Numbers that say how bad a file is, the one that counts most first; the lower, the worse. */
function gradesOf({ verdict, measurements }: Judged, findings: readonly Outcome[]): readonly number[] {
  const binding = findings.filter((outcome) => !outcome.advisory && isMiss(outcome))
  const deciding =
    verdict === 'pass' ? findings.filter(isWarning) : binding.filter((one) => one.verdict === verdict)
  const worst = measurements.fault === null ? deciding.map(({ rule }) => severityRank(rule)) : [0]
  const standing = ['fail', 'unsure', 'pass'].indexOf(verdict)
  const spotless = verdict === 'pass' && deciding.length === 0 ? 1 : 0
  return [standing, spotless, Math.min(MILDEST, ...worst), -deciding.length]
}

function compare(a: readonly number[], b: readonly number[]): number {
  const at = a.findIndex((grade, i) => grade !== b[i])
  return at < 0 ? 0 : (a[at] ?? 0) - (b[at] ?? 0)
}
