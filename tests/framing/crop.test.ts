import { describe, expect, test } from 'vitest'
import type { Crop } from '../../src/framing/advice.ts'
import { solveCrop } from '../../src/framing/crop.ts'
import type { Rect } from '../../src/framing/room.ts'
import { type Asked, askFor, expectMet, measuredAt, PLACE, type Place } from './cases.ts'

const solve = (asked: Asked, place: Partial<Place> = {}, intrusions: readonly Rect[] = []) =>
  solveCrop(measuredAt({ ...PLACE, ...place }), askFor(asked), intrusions)
const EDGE = { 'backdrop-edge': true }

/** The crop, which must meet what is asked. */
function cropOf(asked: Asked, place: Partial<Place> = {}, intrusions: readonly Rect[] = []): Crop {
  const advice = solve(asked, place, intrusions)
  if (!('crop' in advice)) throw new Error(`No crop: ${JSON.stringify(advice)}`)
  expectMet({ ...PLACE, ...place }, asked, advice)
  return advice
}

describe('worked by hand, on a head of 1380 px, 270 px under the top edge of 2400 x 3000 px', () => {
  test('a frame that meets everything is kept whole, without a margin', () => {
    const asked = {
      'aspect-ratio': '4:5',
      headroom: { min: 9, max: 12 },
      'head-height': { min: 46, max: 50 },
    }
    const whole = { leftPx: 0, topPx: 0, widthPx: 2400, heightPx: 3000 }
    expect(cropOf(asked)).toMatchObject({ crop: whole, scaleTo: null, tight: false })
  })

  test('a whole frame with too many pixels is scaled', () => {
    const { crop, scaleTo } = cropOf({ 'pixel-size': { width: 1200, height: 1500 } })
    expect(crop).toEqual({ leftPx: 0, topPx: 0, widthPx: 2400, heightPx: 3000 })
    expect(scaleTo).toEqual({ widthPx: 1200, heightPx: 1500 })
  })

  test('too much room around the head: closer, as far as the least head height', () => {
    // 1380 px are 50 % of 2760 px; with 0.3 % of margin the frame may be 1380 / 0.503 = 2743.5 px high, and the crown
    // must lie 6.3 to 11.7 % down: 172.8 to 321 px.
    const asked = {
      'aspect-ratio': '4:5',
      'head-height': { min: 50, max: 60 },
      headroom: { min: 6, max: 12 },
    }
    const { crop } = cropOf(asked)
    expect(crop).toMatchObject({ widthPx: 2194, heightPx: 2743 })
    expect(crop.topPx).toBe(Math.floor((0 + Math.floor(270 - 0.063 * 2743)) / 2))
  })

  test('a head height with an error of 2 % of the frame: closer by half of that, so that no doubt is left', () => {
    // 1380 px may be 30 px less: (1380 - 30) / 0.503 = 2683.9 px.
    const measured = measuredAt(PLACE, { head: { headHeightErrorPct: 2 } })
    const asked = { 'aspect-ratio': '4:5', 'head-height': { min: 50, max: 60 } }
    const advice = solveCrop(measured, askFor(asked), [])
    expect(advice).toMatchObject({ crop: { heightPx: 2683 } })
  })

  test('headroom, eye line and centering with errors: within their limits wherever the truth is, as far as half of the errors', () => {
    const head = { crownErrorPct: 1, eyeLineErrorPct: 0.4, offCenterErrorPct: 0.5 }
    const advice = (asked: Asked, place: Partial<Place>) => {
      const found = solveCrop(measuredAt({ ...PLACE, ...place }, { head }), askFor(asked), [])
      return 'crop' in found ? found.crop : null
    }
    // Half of 1 % of 3000 px is 15 px: (150 - 15) px are 6.3 % of 2142.9 px, where without errors it is 2380.
    expect(advice({ headroom: { min: 6, max: 12 } }, { crown: 150 })).toMatchObject({ heightPx: 2142 })
    // Half of 0.4 % of 3000 px is 6 px: (900 - 6) px are 30.15 % of 2965.2 px.
    expect(advice({ 'eye-line': { min: 30, max: 40 } }, { eyeY: 900 })).toMatchObject({ heightPx: 2965 })
    // Half of 0.5 % of 2400 px is 6 px: (1500 + 6 - (2400 - w)) / w - 0.5 <= 0.019, so w <= 894 / 0.481 = 1858.6.
    expect(advice({ centering: { max: 2 } }, { eyeX: 1500 })).toMatchObject({ widthPx: 1858 })
  })

  test('too little headroom, in a frame that is large enough: closer, until what there is suffices', () => {
    // 150 px are 6 % of 2500 px; with 0.3 % of margin of 2380.9 px.
    const { crop } = cropOf({ headroom: { min: 6, max: 12 } }, { crown: 150 })
    expect(crop).toMatchObject({ topPx: 0, heightPx: 2380, widthPx: 2400, leftPx: 0 })
  })

  test('too much headroom: only as much off the top as must be', () => {
    // 600 px of headroom may be 11.7 % of the rest: 3000 - t high, with 600 - t <= 0.117 (3000 - t), so t >= 281.99.
    const { crop } = cropOf({ headroom: { min: 6, max: 12 } }, { crown: 600, chin: 1980, eyeY: 1440 })
    expect(crop).toEqual({ leftPx: 0, topPx: 282, widthPx: 2400, heightPx: 2718 })
  })

  test('off center: as much off the other side, and the height stays', () => {
    // Eyes 300 px right of the center: a crop that is symmetric about them is 1800 px wide; 2 % less 0.1 % may be off.
    const { crop } = cropOf({ centering: { max: 2 } }, { eyeX: 1500 })
    // (1500 - (2400 - w)) / w - 0.5 <= 0.019, so w <= 900 / 0.481 = 1871.1
    expect(crop).toEqual({ leftPx: 529, topPx: 0, widthPx: 1871, heightPx: 3000 })
  })

  test('off center to the left and to the right are mirror images', () => {
    const asked = { 'aspect-ratio': '4:5', centering: { max: 2 } }
    const right = cropOf(asked, { eyeX: 1500 }).crop
    const left = cropOf(asked, { eyeX: 900 }).crop
    expect(left).toMatchObject({ widthPx: right.widthPx, heightPx: right.heightPx, topPx: right.topPx })
    expect(left.leftPx).toBe(2400 - right.leftPx - right.widthPx)
  })

  test('from an upright frame to a square', () => {
    // 4 to 10 % of 2400 px, less the margin, are 103.2 to 232.8 px above the crown at 270 px: starts of 38 to 166.
    const asked = {
      'aspect-ratio': '1:1',
      'pixel-size': { width: 800, height: 800 },
      headroom: { min: 4, max: 10 },
      centering: { max: 2 },
    }
    const { crop, scaleTo } = cropOf(asked)
    expect(crop).toEqual({ leftPx: 0, topPx: 102, widthPx: 2400, heightPx: 2400 })
    expect(scaleTo).toEqual({ widthPx: 800, heightPx: 800 })
  })

  test('from a lying frame to an upright one, around the eyes', () => {
    const { crop } = cropOf({ 'aspect-ratio': '4:5', centering: { max: 2 } }, { width: 4500, eyeX: 2600 })
    expect(crop).toEqual({ leftPx: 1400, topPx: 0, widthPx: 2400, heightPx: 3000 })
  })

  test('where the spec asks for no place, the eyes keep theirs', () => {
    // Eyes at 37 % of the height and 60 % of the width: 37 % of 600 px go off the top.
    const { crop } = cropOf({ 'aspect-ratio': '1:1' }, { eyeX: 1440 })
    expect(crop).toEqual({ leftPx: 0, topPx: 222, widthPx: 2400, heightPx: 2400 })
  })

  test('an uneven ratio is met to the nearest pixel', () => {
    // 35 x 45 mm; 2333.3 of 3000 px.
    expect(cropOf({ 'aspect-ratio': '35:45' }).crop).toMatchObject({ widthPx: 2333, heightPx: 3000 })
  })
})

describe('published layouts', () => {
  // ANSI/NIST-ITL 1-2011 Update 2013, Annex E: 3:4 and at least 768 x 1024 px (E.2.2), the eyes' line about 55 % of
  // the height up from the bottom edge (E.4.3.1).
  const NIST = {
    'aspect-ratio': '3:4',
    'pixel-size': { width: { min: 768 }, height: { min: 1024 } },
    'eye-line': { target: 45, tolerance: 1 },
    centering: { max: 2 },
  }
  // ICAO Doc 9303, photograph guidelines: chin to crown 70 to 80 % of the height; 35 x 45 mm.
  const ICAO = { 'aspect-ratio': '35:45', 'head-height': { min: 70, max: 80 }, centering: { max: 3 } }

  test('head and shoulders of ANSI/NIST: the eyes at 45 %', () => {
    const { crop } = cropOf(NIST)
    expect((1110 - crop.topPx) / crop.heightPx).toBeCloseTo(0.45, 1)
    expect(crop.widthPx / crop.heightPx).toBeCloseTo(0.75, 3)
  })

  test('an ICAO crop of the same frame is much closer', () => {
    const { crop } = cropOf(ICAO)
    expect(1380 / crop.heightPx).toBeGreaterThan(0.7)
    expect(1380 / crop.heightPx).toBeLessThan(0.72)
  })
})

describe('the whole head stays in', () => {
  test('no band on the headroom: the crown still is not cut', () => {
    // Eyes at 10 % or less from the top would need the crop to begin below the crown.
    expect(solve({ 'eye-line': { max: 10 } })).toHaveProperty('conflicts')
  })

  test('a style that cuts into the hair says so', () => {
    const { crop } = cropOf({ headroom: { min: -6, max: -2 } })
    expect(crop.topPx).toBeGreaterThan(270)
  })

  test('a narrow ratio does not cut the face', () => {
    // A face of 720 px can't stand in the middle of anything narrower.
    const { crop } = cropOf({ 'aspect-ratio': '1:3' })
    expect(crop.widthPx).toBe(1000)
    expect(solve({ 'aspect-ratio': '1:5' })).toHaveProperty('conflicts')
  })
})

describe('intrusions', () => {
  test('a stand at the left is left out, with a margin', () => {
    // 0.3 % of 3000 px are 9 px beside the stand's 100.
    const { crop } = cropOf({ ...EDGE, headroom: { min: 6, max: 12 } }, {}, [
      { left: 0, top: 500, right: 100, bottom: 3000 },
    ])
    expect(crop).toEqual({ leftPx: 109, topPx: 0, widthPx: 2291, heightPx: 3000 })
  })

  test('where the margin would cost too much of the band, it is given up', () => {
    // The face begins at 840 px: the stand's 838 leave 2 px for the margin, of which half is 4.5.
    const { crop, tight } = cropOf(EDGE, {}, [{ left: 0, top: 0, right: 838, bottom: 3000 }])
    expect(crop.leftPx).toBe(838)
    expect(tight).toBe(true)
  })

  test('the end of the paper below is left out below', () => {
    const { crop } = cropOf({ ...EDGE, 'aspect-ratio': '4:5' }, {}, [
      { left: 0, top: 2600, right: 300, bottom: 3000 },
    ])
    // Beside it there are 2091 x 2614 px, above it 2591 px of height and 2073 of width.
    expect(crop).toMatchObject({ leftPx: 309, widthPx: 2091 })
  })

  test('more regions than a backdrop has: no crop', () => {
    const many = Array.from({ length: 17 }, (_, i) => ({ left: i, top: 0, right: i + 1, bottom: 1 }))
    expect(solve(EDGE, {}, many)).toEqual({ doubts: ['backdrop-not-plain'] })
  })

  test('where the spec does not mind them, they stay', () => {
    const stand = { left: 0, top: 0, right: 100, bottom: 3000 }
    expect(cropOf({ 'aspect-ratio': '4:5' }, {}, [stand]).crop).toMatchObject({ leftPx: 0, widthPx: 2400 })
  })
})

describe('what is said beside the crop', () => {
  test('tight when no margin is left', () => {
    // 270 px of headroom in a picture that must keep its 3000 px of height are 9 %, as much as is asked, but the
    // picture is 100 px too wide, so it has to be cropped.
    const asked = { 'pixel-size': { width: 2400, height: 3000 }, headroom: { min: 9, max: 12 } }
    expect(cropOf(asked, { width: 2500, eyeX: 1250 })).toMatchObject({ tight: true })
    expect(cropOf({ ...asked, headroom: { min: 6, max: 12 } }, { width: 2500 })).toMatchObject({
      tight: false,
    })
  })

  test.each([
    [3.9, false],
    [4.1, true],
    [-4.1, true],
  ])('a lean of %d° with 4° allowed: level first is %s', (tiltDeg, levelFirst) => {
    expect(cropOf({ 'aspect-ratio': '1:1', tilt: { max: 4 } }, { tiltDeg })).toMatchObject({ levelFirst })
  })

  test('no tilt is asked: it does not matter', () => {
    expect(cropOf({ 'aspect-ratio': '1:1' }, { tiltDeg: 20 })).toMatchObject({ levelFirst: false })
  })

  test('plain JSON', () => {
    for (const advice of [cropOf({ 'aspect-ratio': '1:1' }), solve({ headroom: { min: 50 } })])
      expect(JSON.parse(JSON.stringify(advice))).toEqual(advice)
  })
})

test('a head in doubt: no crop, with the doubts', () => {
  const measured = measuredAt(PLACE, { head: { confidence: 0.4, doubts: ['crown-merges-with-backdrop'] } })
  expect(solveCrop(measured, askFor({ 'aspect-ratio': '1:1' }))).toEqual({
    doubts: ['crown-merges-with-backdrop'],
  })
})
