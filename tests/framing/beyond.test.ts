import { describe, expect, test } from 'vitest'
import { solveBeyond } from '../../src/framing/beyond.ts'
import { solveCrop } from '../../src/framing/crop.ts'
import { seeded } from '../random.ts'
import { type Asked, askFor, expectPass, measuredAt, PLACE, type Place } from './cases.ts'
import { randomAsk, randomPlace } from './random-cases.ts'

const beyond = (place: Place, asked: Asked) => solveBeyond(measuredAt(place), askFor(asked), [])

/** Every rule passes on the box, at the size it is delivered at. */
function expectBoxMet(place: Place, asked: Asked): void {
  const found = beyond(place, asked)
  if (!found) throw new Error('A crop was expected.')
  const { box, deliverAt } = found
  const moved = {
    ...{ width: box.widthPx, height: box.heightPx },
    ...{ crown: place.crown - box.topPx, chin: place.chin - box.topPx },
    ...{ eyeX: place.eyeX - box.leftPx, eyeY: place.eyeY - box.topPx },
  }
  expectPass({ ...measuredAt({ ...place, ...moved }), ...deliverAt }, asked)
}

describe('beyond the frame as little as can be', () => {
  const HIGH: Place = { ...PLACE, crown: 123, chin: 1503, eyeY: 963 }

  test('upwards', () => {
    const asked = { headroom: { min: 6, max: 12 }, 'pixel-size': { width: 2400, height: 3000 } }
    // 6 % of 3000 px are 180 px, and 0.3 % are kept for errors of measurement.
    const missing = 180 + 9 - 123
    expect(beyond(HIGH, asked)).toEqual({
      box: { leftPx: 0, topPx: -missing, widthPx: 2400, heightPx: 3000 },
      ...{ tight: false, levelFirst: false, deliverAt: null },
    })
    expectBoxMet(HIGH, asked)
  })

  test('of its own size, where frame and head have theirs already', () => {
    // A head of just under 50 % would take a larger crop if room were kept for errors of measurement.
    const large: Place = { ...HIGH, chin: HIGH.crown + 1495 }
    const asked = { headroom: { min: 6 }, 'head-height': { max: 50 }, 'aspect-ratio': '4:5' }
    expect(beyond(large, asked)?.box).toEqual({ leftPx: 0, topPx: -66, widthPx: 2400, heightPx: 3000 })
  })

  test('to a side, level first', () => {
    const asked = { centering: { max: 0 }, 'pixel-size': { width: 2400, height: 3000 }, tilt: { max: 2 } }
    const found = beyond({ ...PLACE, eyeX: 1250, tiltDeg: 5 }, asked)
    expect(found).toMatchObject({ box: { leftPx: 50, widthPx: 2400 }, levelFirst: true })
  })
})

test('within the frame, of fewer pixels than are asked', () => {
  const asked = {
    'head-height': { min: 60, max: 65 },
    headroom: { min: 5, max: 12 },
    'pixel-size': { width: 2400, height: 3000 },
  }
  const found = beyond(PLACE, asked)
  expect(found?.deliverAt).toEqual({ widthPx: 2400, heightPx: 3000 })
  expect(found?.box.heightPx).toBeLessThan(2400)
  expect(found?.box.topPx).toBeGreaterThan(0)
  expectBoxMet(PLACE, asked)
})

test('nothing where the demands contradict each other', () => {
  expect(beyond(PLACE, { 'head-height': { min: 60 }, headroom: { min: 41 } })).toBeNull()
  expect(beyond(PLACE, { 'aspect-ratio': '1:1', 'pixel-size': { width: 10, height: 20 } })).toBeNull()
})

test('nothing of a head in doubt', () => {
  const measured = measuredAt(PLACE, { head: { confidence: 0.2 } })
  expect(solveBeyond(measured, askFor({ headroom: { min: 20 } }), [])).toBeNull()
})

test('of random sitters and specs, whatever is found meets all rules', () => {
  const random = seeded(71)
  let found = 0
  for (let n = 0; n < 3000; n++) {
    const place = randomPlace(random, 300, 600)
    const asked = randomAsk(random, place)
    const advice = solveCrop(measuredAt(place), askFor(asked))
    if (!('conflicts' in advice) || !beyond(place, asked)) continue
    found++
    expectBoxMet(place, asked)
  }
  expect(found).toBeGreaterThan(300)
})
