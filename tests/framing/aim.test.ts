import { describe, expect, test } from 'vitest'
import { aimOf } from '../../src/framing/aim.ts'
import { solveCrop } from '../../src/framing/crop.ts'
import { seeded } from '../random.ts'
import { type Asked, askFor, expectMet, measuredAt, PLACE, type Place } from './cases.ts'

const ASKED = {
  'aspect-ratio': '4:5',
  headroom: { min: 4, max: 14 },
  'eye-line': { min: 33, max: 42 },
  'head-height': { min: 44, max: 58 },
  centering: { max: 3 },
}

function aimed(asked: Asked, place: Place) {
  const ask = askFor(asked)
  const advice = solveCrop(measuredAt(place), ask, [], { aim: aimOf(ask) })
  return 'crop' in advice ? advice : null
}

/** What a crop puts the eyes, the middle and the head at, in percent, by the rules' definitions. */
function placed(
  { leftPx, topPx, widthPx, heightPx }: NonNullable<ReturnType<typeof aimed>>['crop'],
  place: Place,
) {
  return {
    eyeLine: (100 * (place.eyeY - topPx)) / heightPx,
    centering: (100 * (place.eyeX - leftPx)) / widthPx - 50,
    headHeight: (100 * (place.chin - place.crown)) / heightPx,
    headroom: (100 * (place.crown - topPx)) / heightPx,
  }
}

test('the middle of each band that has one; of a set, its median, as far as the band has it', () => {
  const ask = askFor({ ...ASKED, headroom: { min: 4 } })
  expect(aimOf(ask)).toEqual({ 'eye-line': 37.5, 'head-height': 51, centering: 0 })
  expect(aimOf(ask, { 'eye-line': 36, 'head-height': 60 })).toEqual({
    'eye-line': 36,
    'head-height': 58,
    centering: 0,
  })
})

test('by hand: a head of 1380 px that is to be 51 % of the height is in a crop of 2706 px', () => {
  // 1380 / 0.51 = 2705.9; the eyes, at 1110 px, are to be 37.5 % down: 1110 - 0.375 * 2706 = 95.25.
  const found = aimed(ASKED, PLACE)
  expect(found?.crop).toEqual({ leftPx: 118, topPx: 95, widthPx: 2165, heightPx: 2706 })
})

describe('against every crop in whole px of a small frame', () => {
  test('eye line, centering and head are within 0.3 % of the best', () => {
    const next = seeded(18)
    const between = (min: number, max: number) => min + (max - min) * next()
    let found = 0
    for (let n = 0; n < 40; n++) {
      const head = between(135, 195)
      const crown = between(30, 135)
      const place: Place = {
        ...{ width: 480, height: 600, crown, chin: crown + head, faceWidth: 90 },
        ...{ eyeX: between(165, 315), eyeY: crown + head * between(0.44, 0.52) },
      }
      const one = aimed(ASKED, place)
      const best = nearest(place)
      if (!one || one.tight || !best) continue
      found++
      expectMet(place, ASKED, one)
      const told = placed(one.crop, place)
      expect(Math.abs(told.eyeLine - 37.5)).toBeLessThanOrEqual(best.eyeLine + 0.3)
      // Heads are compared where both have the eyes where they are to be.
      const size = best.eyeLine < 0.2 ? Math.abs(told.headHeight - 51) : 0
      expect(size).toBeLessThanOrEqual(best.headHeight + 0.3)
      expect(Math.abs(told.centering)).toBeLessThanOrEqual(best.centering + 0.3)
    }
    expect(found).toBeGreaterThan(25)
  })
})

/**
 * The least that eyes and center can be off their aim, and then the head, by trying them all. The limits are narrower by the margins that a
 * crop keeps (framing/margin.ts).
 */
function nearest({ width, height, crown, chin, eyeX, eyeY, faceWidth }: Place) {
  let best: { eyeLine: number; centering: number; headHeight: number } | null = null
  for (let high = 1; high <= height; high++) {
    const wide = Math.round(0.8 * high)
    const headHeight = (100 * (chin - crown)) / high
    if (wide > width || headHeight < 44.3 || headHeight > 57.7) continue
    let [eyeLine, centering] = [Infinity, Infinity]
    for (let top = 0; top + high <= height; top++) {
      const eyes = (100 * (eyeY - top)) / high
      const headroom = (100 * (crown - top)) / high
      if (headroom < 4.3 || headroom > 13.7 || eyes < 33.15 || eyes > 41.85 || chin > top + high) continue
      const off = Math.abs(eyes - 37.5)
      // Rounding to whole px misses nothing.
      eyeLine = Math.min(eyeLine, off <= 50 / high + 1e-9 ? 0 : off)
    }
    for (let left = 0; left + wide <= width; left++) {
      const off = Math.abs((100 * (eyeX - left)) / wide - 50)
      const holdsFace = eyeX - faceWidth / 2 >= left && eyeX + faceWidth / 2 <= left + wide
      if (off <= 2.9 && holdsFace) centering = Math.min(centering, off <= 50 / wide + 1e-9 ? 0 : off)
    }
    if (eyeLine === Infinity || centering === Infinity) continue
    const one = { eyeLine, centering, headHeight: Math.abs(headHeight - 51) }
    const misses = (each: typeof one) => [each.eyeLine, each.centering, each.headHeight]
    if (!best || isLess(misses(one), misses(best))) best = one
  }
  return best
}

function isLess(a: readonly number[], b: readonly number[]): boolean {
  const at = a.findIndex((value, index) => Math.abs(value - (b[index] ?? 0)) > 1e-9)
  return at >= 0 && (a[at] ?? 0) < (b[at] ?? 0)
}
