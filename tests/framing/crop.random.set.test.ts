import { describe, expect, test } from 'vitest'
import { solveCrop } from '../../src/framing/crop.ts'
import { largestCrop } from '../../src/framing/extremes.ts'
import type { Rect } from '../../src/framing/room.ts'
import { sitterOf } from '../../src/framing/sitter.ts'
import { seeded } from '../random.ts'
import { partOf } from '../sets.ts'
import { largestArea } from './brute-force.ts'
import { type Asked, askFor, expectMet, measuredAt, type Place } from './cases.ts'
import { randomAsk, randomIntrusions, randomPlace } from './random-cases.ts'

const CASES = partOf(10_000, 4)

function solved(place: Place, asked: Asked, intrusions: readonly Rect[]) {
  const measured = measuredAt(place)
  const sitter = sitterOf(measured)
  if ('doubts' in sitter) throw new Error('The measurements are of full confidence.')
  const ask = askFor(asked)
  const problem = {
    sitter,
    ask,
    intrusions,
    wholeHead: true,
    framed: true,
    enoughPixels: true,
    marginShare: 0,
  }
  const largest = largestCrop(problem)
  return { advice: solveCrop(measured, ask, intrusions), area: largest ? largest.width * largest.height : 0 }
}

function leavesOut(
  crop: { leftPx: number; topPx: number; widthPx: number; heightPx: number },
  each: Rect,
): boolean {
  const { leftPx, topPx, widthPx, heightPx } = crop
  return (
    leftPx >= each.right ||
    topPx >= each.bottom ||
    leftPx + widthPx <= each.left ||
    topPx + heightPx <= each.top
  )
}

describe('against every crop of a small frame, tried one by one', () => {
  test.each([
    ['without intrusions', 0, 40, CASES * 0.8],
    ['with intrusions', 1, 24, CASES * 0.2],
  ] as const)('%s', (_, intruded, most, cases) => {
    const random = seeded(2024 + intruded)
    const seen = { crops: 0, conflicts: 0, tight: 0 }
    for (let i = 0; i < cases; i++) {
      const place = randomPlace(random, 12, most)
      const asked = { ...randomAsk(random, place), ...(intruded && { 'backdrop-edge': true }) }
      const intrusions = intruded ? randomIntrusions(random, place) : []
      const { advice, area } = solved(place, asked, intrusions)
      const said = JSON.stringify({ i, place, asked, intrusions, advice })
      const possible = largestArea(place, asked, intrusions)
      expect(possible, `a larger crop exists: ${said}`).toBeLessThanOrEqual('conflicts' in advice ? 0 : area)
      if ('conflicts' in advice) {
        seen.conflicts += Math.min(1, advice.conflicts.length)
        continue
      }
      if (!('crop' in advice)) throw new Error(said)
      seen.crops++
      seen.tight += advice.tight ? 1 : 0
      expect(area, said).toBeGreaterThanOrEqual(advice.crop.widthPx * advice.crop.heightPx)
      try {
        expectMet(place, asked, advice)
      } catch (error) {
        throw new Error(said, { cause: error })
      }
      expect(
        intrusions.every((each) => leavesOut(advice.crop, each)),
        said,
      ).toBe(true)
    }
    // All kinds of answers came up, often.
    expect(seen.crops).toBeGreaterThan(0.2 * cases)
    expect(seen.conflicts).toBeGreaterThan(0.2 * cases)
    expect(seen.crops + seen.conflicts).toBe(Math.ceil(cases))
    expect(seen.tight).toBeGreaterThan(0.01 * cases)
  })
})

test('frames of real size: every crop meets the rules', () => {
  const random = seeded(7)
  let crops = 0
  for (let i = 0; i < CASES / 10; i++) {
    const place = randomPlace(random, 600, 6000)
    const asked = randomAsk(random, place)
    const { advice } = solved(place, asked, [])
    if (!('crop' in advice)) continue
    crops++
    try {
      expectMet(place, asked, advice)
    } catch (error) {
      throw new Error(JSON.stringify({ i, place, asked, advice }), { cause: error })
    }
  }
  expect(crops).toBeGreaterThan(CASES / 50)
})
