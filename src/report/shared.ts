import type { Outcome } from '../rules/contract/outcome.ts'
import { isLong } from './short-list.ts'

/** What is still to be told of a file. */
export interface ToldFile {
  readonly file: string
  readonly shown: readonly Outcome[]
}

/** A finding that is told once for many files. */
export interface Shared {
  readonly outcome: Outcome
  readonly files: readonly string[]
}

// Fewer can be told with their files.
const LEAST_ALIKE = 5
const LEAST_SIMILAR = 10

/**
 * Takes out what many files have in common: where the list is long, findings by which a rule asks the same of them,
 * whatever it has measured; and always those in the same words. Those of most files come first.
 */
export function sharedFindings<F extends ToldFile>(files: readonly F[]): { shared: Shared[]; left: F[] } {
  const open = files.filter(({ shown }) => shown.length > 0).length
  const similar = toldOnce(files, sameQuestion, isLong(open) ? LEAST_SIMILAR : Number.POSITIVE_INFINITY)
  const alike = toldOnce(similar.left, sameWords, LEAST_ALIKE)
  const shared = [...similar.shared, ...alike.shared]
  return { shared: shared.sort((a, b) => b.files.length - a.files.length), left: alike.left }
}

interface Found {
  readonly file: string
  readonly outcome: Outcome
}

function sameWords({ rule, verdict, advisory, reason, fix }: Outcome): string {
  return JSON.stringify([rule, verdict, advisory, reason, fix])
}

function sameQuestion({ rule, verdict, advisory, expected }: Outcome): string {
  return JSON.stringify([rule, verdict, advisory, expected])
}

function toldOnce<F extends ToldFile>(
  files: readonly F[],
  keyOf: (outcome: Outcome) => string,
  least: number,
): { shared: Shared[]; left: F[] } {
  const groups = new Map<string, Found[]>()
  for (const { file, shown } of files) {
    for (const outcome of shown) {
      const key = keyOf(outcome)
      const group = groups.get(key)
      if (group) group.push({ file, outcome })
      else groups.set(key, [{ file, outcome }])
    }
  }
  const large = new Map([...groups].filter(([, found]) => found.length >= least))
  return {
    shared: [...large.values()].map(inOne),
    left: files.map((file) => ({
      ...file,
      shown: file.shown.filter((outcome) => !large.has(keyOf(outcome))),
    })),
  }
}

/** Many findings of one rule as one, in the words of the middle one. */
function inOne(all: readonly Found[]): Shared {
  const sorted = all.toSorted((a, b) => (a.outcome.figure?.value ?? 0) - (b.outcome.figure?.value ?? 0))
  const example = sorted[Math.floor(sorted.length / 2)]
  if (!example) throw new Error('A group has findings.')
  const { file, outcome } = example
  const differ = (key: 'reason' | 'fix') => all.some((one) => one.outcome[key] !== outcome[key])
  const reason = differ('reason')
    ? `${spanOf(sorted)}${file}, for example: ${outcome.reason}`
    : outcome.reason
  const fix = differ('fix') && outcome.fix ? `For ${file}: ${outcome.fix}` : outcome.fix
  return {
    files: all.map((one) => one.file),
    outcome: { ...outcome, reason, ...(fix !== undefined && { fix }) },
  }
}

/** From the lowest to the highest of what was measured, where that are numbers. */
function spanOf(sorted: readonly Found[]): string {
  const [low, high] = [sorted.at(0)?.outcome, sorted.at(-1)?.outcome]
  return low?.figure && high?.figure ? `Measured ${low.measured} to ${high.measured}. ` : ''
}
