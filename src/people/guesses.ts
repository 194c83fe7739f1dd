import type { People } from './people.ts'
import type { Person } from './person.ts'
import { perhaps } from './resemblance.ts'
import type { Roster } from './roster.ts'
import { isExpected } from './roster-entry.ts'

/** By the labels of strangers, those of the missing people whom they may be. */
export type Guesses = ReadonlyMap<string, string>

/** Most pairs of a stranger and somebody missing that are compared. @choice 500 of each: such a list is of other people */
const MOST_PAIRS = 250_000

/**
 * Whom of the missing the strangers may be. Nobody is the guess for two of them.
 * @param today as 2026-04-01
 */
export function guessesAmong(
  { people, attributions }: People,
  roster: Roster | null,
  today: string,
): Guesses {
  if (roster === null) return new Map()
  const there = new Set(attributions.map(({ person }) => person))
  const missing = people.filter(
    ({ label, entry }) => entry !== null && isExpected(entry, today) && !there.has(label),
  )
  const strangers = people.filter(({ entry }) => entry === null)
  if (strangers.length * missing.length > MOST_PAIRS) return new Map()
  return guessed(strangers, missing, roster.key)
}

function guessed(strangers: readonly Person[], missing: readonly Person[], key: readonly string[]): Guesses {
  const guesses = strangers.flatMap((stranger): [string, string][] => {
    const guess = perhaps(stranger.fields, missing, key)
    return guess ? [[stranger.label, guess.label]] : []
  })
  const times = new Map<string, number>()
  for (const [, guess] of guesses) times.set(guess, (times.get(guess) ?? 0) + 1)
  return new Map(guesses.filter(([, guess]) => times.get(guess) === 1))
}
