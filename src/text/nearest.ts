import { distance } from 'fastest-levenshtein'

// Longer words than these are no slips of the pen, and comparing them would cost time.
const LONGEST = 64

/**
 * The candidate that a misspelled word was most likely meant to be, or null when none is near: at most about
 * a third of its letters wrong (common practice, no source), where two neighbors swapped are one slip; capital letters and
 * the choice of `-`, `_` or space don't count.
 */
export function nearest(word: string, candidates: Iterable<string>): string | null {
  if (word.length > LONGEST) return null
  const plain = plainOf(word)
  let best: string | null = null
  let least = Infinity
  for (const candidate of candidates) {
    const other = plainOf(candidate)
    const wrong = isSwapOf(plain, other) ? 1 : distance(plain, other)
    if (wrong < least && wrong <= Math.max(1, Math.floor((candidate.length + 1) / 3))) {
      best = candidate
      least = wrong
    }
  }
  return best
}

/** "; did you mean X?" to end a sentence with, or a full stop. */
export function didYouMean(word: string, candidates: Iterable<string>): string {
  const meant = nearest(word, candidates)
  return meant === null ? '.' : `; did you mean ${meant}?`
}

function isSwapOf(word: string, other: string): boolean {
  const at = word.split('').findIndex((letter, i) => letter !== other[i])
  return at >= 0 && word.slice(0, at) + (word[at + 1] ?? '') + word[at] + word.slice(at + 2) === other
}

function plainOf(word: string): string {
  return word
    .replace(/(\p{Ll})(\p{Lu})/gu, '$1-$2')
    .toLowerCase()
    .replace(/[\s_]/g, '-')
}
