import { beforeAll, describe, expect, test } from 'vitest'
import { ACCURACY_SET } from '../../examples/drawing/accuracy-set.ts'
import { UNPLAIN_MARKS } from '../outside/unplain-marks.ts'
import { part, partOf } from '../sets.ts'
import { type Accuracy, evaluateDrawn, evaluateReal } from './evaluate.ts'

// Limits, in % of the frame height: what a reader of the page may rely on.
const CLOSE = 1
const UNPLAIN_CLOSE = 1.5

function beyond(results: readonly Accuracy[], limit: number): string[] {
  return results
    .filter(({ sure, crownError, eyeLineError }) => {
      return (
        sure && (crownError === null || Math.abs(crownError) > limit || Math.abs(eyeLineError ?? 0) > limit)
      )
    })
    .map(({ name, crownError, eyeLineError }) => `${name}: crown ${crownError}, eyes ${eyeLineError}`)
}

describe.each([
  ['drawn sitters, truth by construction', 10, true, () => evaluateDrawn(part(ACCURACY_SET, 10))],
  ['photographs from public npm packages, marked by hand', 1, false, () => evaluateReal()],
] as const)('%s', (_, every, isDrawn, evaluate) => {
  let results: readonly Accuracy[] = []
  beforeAll(async () => {
    results = await evaluate()
  })

  test('crown and eye line are within 1 % of the frame height wherever the backdrop is plain and the head is sure', () => {
    const plain = results.filter((one) => one.plain)
    expect(plain.length).toBeGreaterThanOrEqual(partOf(9, every))
    expect(beyond(plain, CLOSE)).toEqual([])
  })

  test('at most one in ten on a plain backdrop is unsure', () => {
    const plain = results.filter((one) => one.plain)
    expect(plain.filter(({ sure }) => !sure).length).toBeLessThanOrEqual(plain.length / 10)
  })

  test('no confident number is more than 1.5 % off where the backdrop is not plain', () => {
    const unplain = results.filter((one) => !one.plain)
    expect(unplain.length).toBeGreaterThanOrEqual(partOf(6, every))
    expect(beyond(unplain, UNPLAIN_CLOSE)).toEqual([])
  })

  // Of a photograph nobody knows how light its backdrop was.
  if (!isDrawn) return
  test('backdrop lightness is within 0.5 L* and unevenness within 10 % of what was drawn', () => {
    const lightness = results.filter(({ lightnessError }) => lightnessError !== null)
    const uneven = results.filter(({ unevennessRatio }) => unevennessRatio !== null)
    expect(lightness.length).toBeGreaterThanOrEqual(partOf(50, every))
    expect(uneven.length).toBeGreaterThanOrEqual(partOf(16, every))
    expect(lightness.filter(({ lightnessError }) => Math.abs(lightnessError ?? 9) > 0.5)).toEqual([])
    expect(uneven.filter(({ unevennessRatio }) => Math.abs((unevennessRatio ?? 9) - 1) > 0.1)).toEqual([])
  })
})

// Marked before the tool had read any of them. Whole photographs and parts of photographs of groups.
describe('portraits before rooms and streets, from public npm packages', () => {
  const EVERY = 20
  let results: readonly Accuracy[] = []
  beforeAll(async () => {
    results = await evaluateReal(part(UNPLAIN_MARKS, EVERY))
  })

  test('no crown that is sure is more than 1.5 % off', () => {
    expect(results.length).toBeGreaterThanOrEqual(partOf(40, EVERY))
    expect(beyond(results, UNPLAIN_CLOSE)).toEqual([])
  })

  test('at most one in ten is unsure', () => {
    expect(results.filter(({ sure }) => !sure).length).toBeLessThanOrEqual(results.length / 10)
  })

  test('95 of 100 crowns are within the error told', () => {
    const sure = results.filter((one) => one.sure)
    const within = sure.filter(({ crownError, crownTold }) => Math.abs(crownError ?? 99) <= (crownTold ?? 0))
    expect(within.length / sure.length).toBeGreaterThanOrEqual(0.95)
  })
})
