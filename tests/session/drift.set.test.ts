import { describe, expect, test } from 'vitest'
import { type Drift, driftOf, referenceOf, type SessionFrame } from '../../src/session/drift.ts'
import type { DriftTrait } from '../../src/session/drift-traits.ts'
import { seeded } from '../random.ts'
import { partOf } from '../sets.ts'
import { type Course, sessionOf } from './sessions.ts'

// Sessions made of numbers alone: 12 sitters with 8 frames each, as frames and sitters scatter (tests/session/sessions.ts).
const SESSIONS = partOf(200, 40)
/** Quiet, usual and restless sessions. */
const SCATTERS = [0.5, 1, 1.4]

function courses(seed: number): Course[] {
  return Array.from({ length: SESSIONS }, (_, i) => ({
    ...{ seed: seed + i, sitters: 12, framesEach: 8, scatter: SCATTERS[i % SCATTERS.length] ?? 1 },
  }))
}

describe('steady sessions: no alarm after any frame', () => {
  test.each([
    ['against their beginning', 0],
    ['against their first frame', 1],
    ['against the first sitter', 8],
  ])('%s', (_, approved) => {
    for (const course of courses(100)) {
      const frames = sessionOf(course)
      // One frame, or one sitter, tells nothing of traits in which sitters differ.
      const sitters = ['key-ratio', 'head-size', 'eye-line']
      const whole = referenceOf(frames.slice(0, approved))
      const reference = Object.fromEntries(
        Object.entries(whole).filter(([trait]) => !sitters.includes(trait)),
      )
      for (let n = approved + 1; n <= frames.length; n += approved === 0 ? 1 : 4)
        expect(driftOf(frames.slice(approved, n), reference), `seed ${course.seed}, ${n} frames`).toEqual([])
    }
  })
})

/** How many frames there were when a drift was first told, the session seen frame by frame; infinite when none was. */
function firstTold(frames: readonly SessionFrame[], from: number, trait: Drift['trait']): number {
  for (let n = from; n <= frames.length; n++)
    if (driftOf(frames.slice(0, n)).some((drift) => drift.trait === trait)) return n
  return Infinity
}

interface Run {
  /** Frames with the step before it was told. */
  readonly delay: number
  /** Frames between the step and where it is said to begin. */
  readonly off: number
  readonly shift: number
}

function runs(trait: DriftTrait, told: Drift['trait'], by: number): Run[] {
  const random = seeded(7)
  return courses(5000).map((course): Run => {
    const at = 12 + Math.floor(random() * 60)
    const frames = sessionOf({ ...course, step: { at, trait, by } })
    const drift = driftOf(frames).find((one) => one.trait === told)
    const begins = frames.findIndex(({ file }) => file === drift?.file)
    return {
      delay: firstTold(frames, at, told) - at,
      off: drift ? Math.abs(begins - at) : Infinity,
      shift: drift?.shift ?? Number.NaN,
    }
  })
}

/** Whether a test holds for that share of all, or all but one. */
function mostly<T>(all: readonly T[], share: number, test: (one: T) => boolean): boolean {
  const exceptions = all.filter((one) => !test(one)).length
  return exceptions <= Math.max(1, (1 - share) * all.length)
}

describe('a step in the backdrop is told after its third frame, from where it came, as large as it is', () => {
  test.each([
    ['backdrop-lightness', 'backdrop-lightness', -0.3, 0.1],
    ['backdrop-lightness', 'backdrop-lightness', 0.3, 0.1],
    ['backdrop-tint-b', 'backdrop-tint', 2, 0.6],
    ['backdrop-unevenness', 'backdrop-unevenness', 2.5, 0.6],
  ] as const)('%s as %s, by %f', (trait, told, by, most) => {
    const all = runs(trait, told, by)
    expect(mostly(all, 0.97, ({ delay }) => delay <= 3)).toBe(true)
    expect(all.every(({ delay }) => delay < Infinity)).toBe(true)
    expect(mostly(all, 0.95, ({ off }) => off <= 1)).toBe(true)
    expect(mostly(all, 0.95, ({ shift }) => Math.abs(shift - by) <= most)).toBe(true)
  })
})

describe('a step in what sitters differ in is told after the third sitter', () => {
  test.each([
    ['key-ratio', -0.5],
    ['head-size', 30],
    ['eye-line', 10],
  ] as const)('%s, by %f', (trait, by) => {
    const all = courses(9000).map((course) => {
      const frames = sessionOf({ ...course, step: { at: 48, trait, by } })
      return { told: firstTold(frames, 48, trait) - 48, before: driftOf(frames.slice(0, 48)) }
    })
    expect(mostly(all, 0.85, ({ told }) => told <= 3 * 8)).toBe(true)
    expect(all.every(({ told }) => told > 2 * 8 - 8)).toBe(true)
    expect(all.flatMap(({ before }) => before)).toEqual([])
  })
})
