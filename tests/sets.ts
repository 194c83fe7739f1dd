/**
 * Sets of cases that are measured one by one and judged as a whole stand in files named `*.set.test.ts`. The long run
 * takes them whole; the everyday run takes a part of each.
 */
const WHOLE = process.env.TEST_SETS === 'whole'

/** All cases, or every nth of them. */
export function part<T>(cases: readonly T[], every: number): readonly T[] {
  return WHOLE ? cases : cases.filter((_, i) => i % every === 0)
}

/** How many cases there must be at least, of a set that has at least so many. */
export function partOf(count: number, every: number): number {
  return WHOLE ? count : Math.floor(count / every)
}
