import type { PlacedProblem } from '../text/placed-problem.ts'
import type { Mismatch } from './mismatch.ts'

// More would scroll away; the next run tells the rest.
const MOST = 50

/** By line, each problem once, at most 50 and a last one that says so. */
export function tidied(problems: readonly PlacedProblem[]): PlacedProblem[] {
  const seen = new Set<string>()
  const sorted = [...problems]
    .sort((a, b) => a.line - b.line || a.column - b.column)
    .filter(({ line, column, message }) => {
      const key = `${line}:${column} ${message}`
      return !seen.has(key) && seen.add(key)
    })
  const next = sorted[MOST]
  if (!next) return sorted
  const { line, column } = next
  return [
    ...sorted.slice(0, MOST),
    { line, column, message: 'There are more problems from here on; fix those above first.' },
  ]
}

/** Without those that have the same cause as another one. */
export function withoutFollowUps(mismatches: readonly Mismatch[]): Mismatch[] {
  const causes = new Map<string, Mismatch>()
  for (const mismatch of mismatches) {
    const key = mismatch.covers && keyOf(mismatch.covers.path)
    if (key !== undefined && !causes.has(key)) causes.set(key, mismatch)
  }
  if (causes.size === 0) return [...mismatches]
  return mismatches.filter((mismatch) => {
    if (mismatch.covers) return causes.get(keyOf(mismatch.covers.path)) === mismatch
    return !prefixes(mismatch.place.path).some((key) => causes.has(key))
  })
}

/** Tells whether nothing is wrong at a path or below it. */
export function soundness(mismatches: readonly Mismatch[]): (path: readonly string[]) => boolean {
  const unsound = new Set(mismatches.flatMap(({ place }) => prefixes(place.path)))
  return (path) => !unsound.has(keyOf(path))
}

function prefixes(path: readonly string[]): string[] {
  return [...path.keys(), path.length].map((length) => keyOf(path.slice(0, length)))
}

function keyOf(path: readonly string[]): string {
  return JSON.stringify(path)
}
