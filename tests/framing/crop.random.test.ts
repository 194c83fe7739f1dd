import { describe, expect, test } from 'vitest'
import { solveCrop } from '../../src/framing/crop.ts'
import { largestCrop } from '../../src/framing/extremes.ts'
import type { Rect } from '../../src/framing/room.ts'
import { sitterOf } from '../../src/framing/sitter.ts'
import { seeded } from '../random.ts'
import { largestArea } from './brute-force.ts'
import { type Asked, askFor, expectMet, measuredAt, type Place } from './cases.ts'

const CASES = 10_000

type Random = () => number
const between = (random: Random, low: number, high: number) => low + (high - low) * random()
const whole = (random: Random, low: number, high: number) => Math.floor(between(random, low, high + 1))
const often = (random: Random, share: number) => random() < share

/** A sitter somewhere in a frame; every other one at whole px, where limits are met exactly. */
function randomPlace(random: Random, least: number, most: number): Place {
  const [width, height] = [whole(random, least, most), whole(random, least, most)]
  const exact = often(random, 0.5)
  const at = (low: number, high: number) =>
    exact ? Math.round(between(random, low, high)) : between(random, low, high)
  const crown = at(0, 0.3 * height)
  const chin = Math.min(height, crown + at(0.2 * height, 0.7 * height))
  return {
    width,
    height,
    crown,
    chin,
    eyeY: at(crown + 0.4 * (chin - crown), crown + 0.6 * (chin - crown)),
    eyeX: at(0.3 * width, 0.7 * width),
    faceWidth: between(random, 0.1, 0.4) * width,
  }
}

/** Limits around a likely value: wide, narrow or of no width at all, and with one end alone. */
function randomBand(random: Random, low: number, high: number): unknown {
  const target = Math.round(between(random, low, high))
  const width = often(random, 0.1) ? 0 : between(random, 0, high - low)
  if (often(random, 0.15)) return { min: target - width }
  if (often(random, 0.15)) return { max: target + width }
  return often(random, 0.5)
    ? { target, tolerance: width / 2 }
    : { min: target - width / 2, max: target + width / 2 }
}

function randomShape(random: Random, { width, height }: Place): Asked {
  const ratios = ['4:5', '1:1', '2:3', '3:2', '35:45', '5:7', '8.5:11', '16:9']
  const ratio = ratios[whole(random, 0, ratios.length - 1)]
  const some = () => whole(random, 3, Math.round(0.8 * Math.min(width, height)))
  switch (whole(random, 0, 6)) {
    case 0:
      return { 'aspect-ratio': ratio }
    case 1:
      return { 'pixel-size': { width: some(), height: some() } }
    case 2:
      return { 'pixel-size': { [often(random, 0.5) ? 'long-edge' : 'short-edge']: { min: some() } } }
    case 3:
      return { 'aspect-ratio': ratio, 'pixel-size': { 'long-edge': { min: some() } } }
    case 4:
      return { 'pixel-size': { width: { min: 4, max: 4 + some() }, height: { min: 5, max: 5 + some() } } }
    case 5:
      return { 'aspect-ratio': ratio, 'pixel-size': { 'short-edge': { max: some() } } }
    default:
      return {}
  }
}

function randomAsk(random: Random, place: Place): Asked {
  const asked: Record<string, unknown> = { ...randomShape(random, place) }
  if (often(random, 0.6)) asked.headroom = randomBand(random, often(random, 0.1) ? -10 : 0, 25)
  if (often(random, 0.6)) asked['eye-line'] = randomBand(random, 25, 50)
  if (often(random, 0.6)) asked['head-height'] = randomBand(random, 30, 75)
  if (often(random, 0.6))
    asked.centering = often(random, 0.7)
      ? { max: between(random, 0, 8) }
      : { target: whole(random, -5, 5), tolerance: between(random, 0, 3) }
  return asked
}

/** Regions at the edges of the frame, as a light stand or the end of the paper leave them. */
function randomIntrusions(random: Random, { width, height }: Place): Rect[] {
  return Array.from({ length: whole(random, 1, 3) }, () => {
    const [across, down] = [whole(random, 1, Math.ceil(width / 4)), whole(random, 1, Math.ceil(height / 4))]
    const [x, y] = [whole(random, 0, width - across), whole(random, 0, height - down)]
    const [left, top] = [
      [0, y],
      [width - across, y],
      [x, 0],
      [x, height - down],
    ][whole(random, 0, 3)] as [number, number]
    return { left, top, right: left + across, bottom: top + down }
  })
}

function solved(place: Place, asked: Asked, intrusions: readonly Rect[]) {
  const measured = measuredAt(place)
  const sitter = sitterOf(measured)
  if ('doubts' in sitter) throw new Error('The measurements are of full confidence.')
  const ask = askFor(asked)
  const problem = { sitter, ask, intrusions, wholeHead: true, framed: true, enough: true, margin: 0 }
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
      if ('conflicts' in advice) {
        seen.conflicts++
        expect(possible, `a crop exists: ${said}`).toBe(0)
        expect(advice.conflicts.length).toBeGreaterThan(0)
        continue
      }
      if (!('crop' in advice)) throw new Error(said)
      seen.crops++
      seen.tight += advice.tight ? 1 : 0
      expect(possible, `a larger crop exists: ${said}`).toBeLessThanOrEqual(area)
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
