import type { Outcome } from '../rules/contract/outcome.ts'

/**
 * How much farther off the set a portrait that was not touched may stand before it counts as worse: median and spread
 * move a little with every portrait that comes or goes.
 * @choice half as much again, no source
 */
const DRIFT = 1.5

/**
 * Whether a finding says more, or worse, than an earlier one about the same. Words are compared as they are. Of a finding
 * with a figure, whose numbers move with the set, what is missed is compared and how far.
 */
export function isWorse(now: Outcome, before: Outcome): boolean {
  if (now.verdict === 'fail' && before.verdict !== 'fail') return true
  if (!now.figure || !before.figure) return now.reason !== before.reason
  const had = new Set(missesOf(before))
  const isFarther = Math.abs(now.figure.value) > DRIFT * Math.abs(before.figure.value)
  return isFarther || missesOf(now).some((miss) => !had.has(miss))
}

/** "headroom -5.1 %; centering +3 %" as what is missed, and to which side. */
function missesOf({ measured }: Outcome): string[] {
  return (measured ?? '').split('; ').map((part) => part.replaceAll(/\d+(?:\.\d+)?/g, '#'))
}
