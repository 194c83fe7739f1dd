import { describe, expect, test } from 'vitest'
import { chinEvidence, likelihoods, likelyPlace, PLACES } from '../../../src/measure/head/chin-evidence.ts'
import { AROUND, REACH } from '../../../src/measure/head/chin-slopes.ts'

const LENGTH = 2 * (REACH + AROUND) + 1
const flat = () => new Array<number>(LENGTH).fill(0)

describe('chinEvidence', () => {
  test('without any edge, only the way from the likeliest place', () => {
    const evidence = chinEvidence([flat(), flat(), flat(), flat()])
    expect(evidence).toHaveLength(PLACES.length)
    for (const [i, values] of evidence.entries()) {
      const way = (PLACES[i] as number) / 10
      expect(values.slice(-3)).toEqual([0, way, way ** 2])
      expect(values.slice(0, -3).every((value) => value === 0)).toBe(true)
    }
  })

  test('an edge is steep where it is, and moves the evidence with it', () => {
    const edgeAt = (place: number) => flat().map((_, i) => (i === place + REACH + AROUND ? -3 : 0))
    const evidence = (place: number) => chinEvidence([edgeAt(place), flat(), edgeAt(place), flat()])
    const at = (place: number, of: number[][]) => of[place - (PLACES[0] as number)] as number[]
    expect(at(5, evidence(5)).at(-3)).toBeCloseTo(Math.hypot(3, 3), 12)
    expect(at(6, evidence(5)).at(-3)).toBe(0)
    expect(at(9, evidence(9)).slice(0, -2)).toEqual(at(5, evidence(5)).slice(0, -2))
  })
})

describe('likelihoods', () => {
  test('go as the exponential of the weighted evidence and add up to 1', () => {
    const [a, b] = likelihoods(
      [
        [1, 2],
        [3, 1],
      ],
      [0.5, -1],
    )
    expect((a ?? 0) + (b ?? 0)).toBeCloseTo(1, 12)
    expect((b ?? 0) / (a ?? 1)).toBeCloseTo(Math.exp(0.5 * 2 + 1), 12)
  })

  test('also of evidence that no exponential can hold', () => {
    expect(likelihoods([[2000], [1000]], [1])).toEqual([1, 0])
  })
})

describe('likelyPlace', () => {
  test('mean and standard deviation', () => {
    const chances = PLACES.map((place) => (place === -4 || place === 8 ? 0.5 : 0))
    expect(likelyPlace(chances)).toEqual({ place: 2, spread: 6 })
  })
})
