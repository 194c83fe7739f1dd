import { describe, expect, test } from 'vitest'
import { driftOf, galleryReference, referenceOf, type SessionFrame } from '../../src/session/drift.ts'
import { driftTraitsOf } from '../../src/session/drift-traits.ts'
import { background, GOOD, head } from '../rules/judging/cases.ts'

const MINUTE = 60_000

/** Frames of one sitter after the other, all alike but for the lightness of the backdrop. */
function session(
  lightness: readonly number[],
  sitter: (i: number) => string | null = () => null,
): SessionFrame[] {
  return lightness.map((lightnessL, i) => ({
    file: `${i}.jpg`,
    at: i * MINUTE,
    sitter: sitter(i),
    traits: driftTraitsOf({ ...GOOD, ...background({ lightnessL }) }),
  }))
}

describe('traits of a frame', () => {
  test('the lightness of the backdrop in stops below white (CIE 15: L* 76.1 is half the luminance of white)', () => {
    const at = (lightnessL: number) =>
      driftTraitsOf({ ...GOOD, ...background({ lightnessL }) })['backdrop-lightness']
    expect(at(100)).toBeCloseTo(0, 9)
    expect(at(76.07)).toBeCloseTo(-1, 2)
  })

  test('what was not measured with confidence is not there', () => {
    const unsure = { ...GOOD, ...background({ confidence: 0.4 }), ...head({ confidence: 0.4 }) }
    expect(driftTraitsOf(unsure)).toEqual({
      'backdrop-lightness': null,
      'backdrop-tint-a': null,
      'backdrop-tint-b': null,
      'backdrop-unevenness': null,
      'key-ratio': 0.6,
      'head-size': null,
      'eye-line': null,
    })
  })
})

describe('a step', () => {
  const steady = Array.from({ length: 6 }, () => 96)
  // CIE 15: Y 90.0 and 73.5 of 100.
  const darker = [88.7, 88.7, 88.7]

  test('is told from the third frame on, with its time, its size and its first frame', () => {
    expect(driftOf(session([...steady, ...darker.slice(1)]))).toEqual([])
    const [drift, ...others] = driftOf(session([...steady, ...darker]))
    expect(others).toEqual([])
    expect(drift).toMatchObject({ trait: 'backdrop-lightness', since: 6 * MINUTE, file: '6.jpg', frames: 3 })
    expect(drift?.shift).toBeCloseTo(Math.log2(73.5 / 90), 2)
  })

  test('that is taken back is told no more', () => {
    expect(driftOf(session([...steady, ...darker, ...steady]))).toEqual([])
  })

  test('of one frame or two is none', () => {
    expect(driftOf(session([...steady, 70, 96, 96, 70, 70, 96, 96]))).toEqual([])
  })

  test('against an approved frame is seen from the first frames on', () => {
    const reference = referenceOf(session([96]))
    expect(driftOf(session(darker), reference)).toMatchObject([
      { trait: 'backdrop-lightness', since: 0, frames: 3 },
    ])
    expect(driftOf(session([95.5, 96, 96.5]), reference)).toEqual([])
  })

  test('against a gallery too, but for what its crops decide', () => {
    const traits = { 'background-lightness': 96, 'head-height': 20, 'eye-line': 10 }
    const reference = galleryReference([
      { deliverable: 'web', traits },
      { deliverable: 'web', traits },
    ])
    expect(Object.keys(reference)).toEqual(['backdrop-lightness'])
    expect(driftOf(session(darker), reference)).toHaveLength(1)
  })
})

test('what sitters differ in is compared from sitter to sitter, and not at all when nobody says who sits', () => {
  const frames = (sitter: (i: number) => string | null): SessionFrame[] =>
    session(
      Array.from({ length: 40 }, () => 96),
      sitter,
    ).map((frame, i) => ({
      ...frame,
      traits: { ...frame.traits, 'eye-line': i < 20 ? 40 : 52 },
    }))
  expect(driftOf(frames(() => null))).toEqual([])
  expect(driftOf(frames((i) => `sitter ${i >> 2}`))).toMatchObject([
    { trait: 'eye-line', file: '20.jpg', shift: 12 },
  ])
  // One sitter who is tall is no drift, however many frames there are.
  expect(driftOf(frames((i) => (i < 20 ? `sitter ${i >> 2}` : 'tall')))).toEqual([])
})
