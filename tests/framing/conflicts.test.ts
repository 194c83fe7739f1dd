import { describe, expect, test } from 'vitest'
import type { Conflict } from '../../src/framing/advice.ts'
import { solveCrop } from '../../src/framing/crop.ts'
import { smallestCrops } from '../../src/framing/extremes.ts'
import type { Rect } from '../../src/framing/room.ts'
import { sitterOf } from '../../src/framing/sitter.ts'
import { seeded } from '../random.ts'
import { type Asked, askFor, measuredAt, PLACE, type Place } from './cases.ts'

const BANDS = { headroom: { min: 6, max: 12 }, 'head-height': { min: 42, max: 50 } }

function conflicts(asked: Asked, place: Partial<Place> = {}, intrusions: readonly Rect[] = []) {
  const advice = solveCrop(measuredAt({ ...PLACE, ...place }), askFor(asked), intrusions)
  if (!('conflicts' in advice)) throw new Error(`Conflicts were expected: ${JSON.stringify(advice)}`)
  return advice.conflicts
}

describe('the frame ends too soon', () => {
  // The head moved up, so that 123 px are left above it: 4.1 %.
  const HIGH = { crown: 123, chin: 1503, eyeY: 963 }
  const enough = { belowPx: 0, leftPx: 0, rightPx: 0 }

  test('above the head, at the largest head that is allowed', () => {
    // 1380 px are 50 % of 2760 px; 6 % of that are 165.6 px, and there are 123.
    expect(conflicts(BANDS, HIGH)).toEqual([
      { kind: 'frame', demands: ['headroom', 'head-height'], ...enough, abovePx: 43 },
    ])
  })

  test('above the head, with all the pixels that are asked', () => {
    // 6 % of 3000 px are 180 px.
    const asked = { headroom: BANDS.headroom, 'pixel-size': { width: 2400, height: 3000 } }
    expect(conflicts(asked, HIGH)).toEqual([
      { kind: 'frame', demands: ['headroom', 'pixel-size'], ...enough, abovePx: 57 },
    ])
  })

  test('on every side', () => {
    // A head of 70 % asked at 50 % needs 2760 px of height; a frame of 2000 x 1971 px has it in the middle.
    const small = { height: 1971, width: 2000, eyeX: 1000, crown: 150, chin: 1530, eyeY: 800 }
    const asked = {
      'head-height': { max: 50 },
      headroom: { target: 20, tolerance: 0.1 },
      'aspect-ratio': '1:1',
    }
    // The width may be 1 px off the ratio. Headroom of 19.9 % of 2760 px is 549.2 px, 20.1 % is 554.7: starts 400 to 404 px above the frame.
    expect(conflicts(asked, small)).toMatchObject([
      { kind: 'frame', abovePx: 402, belowPx: 2760 - 1971 - 402, leftPx: 379, rightPx: 380 },
    ])
  })

  test('beside a sitter at the edge', () => {
    const asked = { centering: { max: 0 }, 'pixel-size': { width: 2400, height: 3000 } }
    expect(conflicts(asked, { eyeX: 1150 })).toMatchObject([
      { kind: 'frame', demands: ['centering', 'pixel-size'], leftPx: 50, rightPx: 0, abovePx: 0, belowPx: 0 },
    ])
    expect(conflicts(asked, { eyeX: 1250 })).toMatchObject([{ leftPx: 0, rightPx: 50 }])
  })

  test('to keep out what reaches in', () => {
    const stand = { left: 0, top: 0, right: 300, bottom: 3000 }
    const asked = { 'backdrop-edge': true, 'pixel-size': { width: 2400, height: 3000 } }
    expect(conflicts(asked, {}, [stand])).toMatchObject([
      { kind: 'frame', demands: ['pixel-size', 'backdrop-edge'], leftPx: 0, rightPx: 300 },
    ])
  })
})

describe('too few pixels', () => {
  test('a file smaller than asked', () => {
    const small = { width: 800, height: 1000, crown: 90, chin: 550, eyeX: 400, eyeY: 370, faceWidth: 240 }
    const asked = { ...BANDS, 'pixel-size': { width: 2400, height: 3000 } }
    expect(conflicts(asked, small)).toEqual([
      {
        kind: 'pixels',
        demands: ['pixel-size'],
        available: { widthPx: 800, heightPx: 1000 },
        asked: { widthPx: 2400, heightPx: 3000 },
      },
    ])
  })

  test('and badly framed: both are said', () => {
    const small = { width: 800, height: 1000, crown: 30, chin: 490, eyeX: 400, eyeY: 310, faceWidth: 240 }
    const asked = { ...BANDS, 'pixel-size': { width: 2400, height: 3000 } }
    // 460 px are 50 % of 920 px, of which 6 % are 55.2.
    expect(conflicts(asked, small)).toMatchObject([
      { kind: 'pixels', demands: ['pixel-size'], available: { widthPx: 800, heightPx: 1000 } },
      { kind: 'frame', demands: ['headroom', 'head-height'], abovePx: 26 },
    ])
  })

  test('a head that is too small for the crop to keep the pixels', () => {
    // 1380 px are 50 % of 2760 px, 240 px less than asked.
    const asked = { 'head-height': { min: 50 }, 'pixel-size': { width: 2400, height: 3000 } }
    expect(conflicts(asked)).toEqual([
      {
        kind: 'pixels',
        demands: ['head-height', 'pixel-size'],
        available: { widthPx: 2209, heightPx: 2760 },
        asked: { widthPx: 2400, heightPx: 3000 },
      },
    ])
  })
})

describe('demands that contradict each other', () => {
  test('in the spec', () => {
    const asked = { ...BANDS, 'aspect-ratio': '1:1', 'pixel-size': { width: 2400, height: 3000 } }
    expect(conflicts(asked)).toEqual([{ kind: 'spec', demands: ['pixel-size', 'aspect-ratio'] }])
    const edges = { 'pixel-size': { width: { max: 500 }, 'short-edge': { min: 600 } } }
    expect(conflicts(edges)).toEqual([{ kind: 'spec', demands: ['pixel-size'] }])
  })

  test('for this head: eyes at 840 of 1380 px below the crown', () => {
    // Headroom of 6 % and a head of at least 42 % put the eyes at 6 + 0.61 x 42 = 31.6 % or lower.
    expect(conflicts({ ...BANDS, 'eye-line': { max: 31 } })).toEqual([
      { kind: 'demands', demands: ['headroom', 'eye-line', 'head-height'] },
    ])
  })

  test('one alone, that no whole pixel meets', () => {
    const asked = { 'eye-line': { target: 37.0123, tolerance: 0 }, 'aspect-ratio': '4:5' }
    expect(conflicts(asked, { eyeY: 1110.3 })).toEqual([{ kind: 'demands', demands: ['eye-line'] }])
  })

  test('something that reaches into the face', () => {
    expect(
      conflicts({ ...BANDS, 'backdrop-edge': true }, {}, [{ left: 0, top: 700, right: 900, bottom: 900 }]),
    ).toEqual([{ kind: 'demands', demands: ['backdrop-edge', 'whole-head'] }])
  })
})

describe('what is said is so, on random frames', () => {
  const random = seeded(11)
  const between = (low: number, high: number) => low + (high - low) * random()
  const found: { place: Place; asked: Asked; conflict: Conflict }[] = []
  while (found.length < 400) {
    const [width, height] = [Math.round(between(300, 900)), Math.round(between(300, 900))]
    const crown = between(0, 0.3) * height
    const chin = Math.min(height, crown + between(0.2, 0.7) * height)
    const eyeY = crown + between(0.4, 0.6) * (chin - crown)
    const eyeX = between(0.3, 0.7) * width
    const place = { width, height, crown, chin, eyeX, eyeY, faceWidth: between(0.1, 0.4) * width }
    const band = (low: number, high: number) => {
      const min = between(low, high)
      return { min, max: min + between(0.5, 6) }
    }
    const all: Asked = {
      headroom: band(0, 20),
      'eye-line': band(25, 50),
      'head-height': band(30, 70),
      centering: { max: between(0.2, 5) },
      'aspect-ratio': '4:5',
      'pixel-size': { width: { min: 200 } },
    }
    const asked = Object.fromEntries(Object.entries(all).filter(() => random() < 0.6))
    const advice = solveCrop(measuredAt(place), askFor(asked))
    if ('conflicts' in advice) for (const conflict of advice.conflicts) found.push({ place, asked, conflict })
  }

  test('a frame that reaches as far as is missing has a crop', () => {
    const frames = found.flatMap(({ place, asked, conflict }) =>
      conflict.kind === 'frame' ? [{ place, asked, conflict }] : [],
    )
    expect(frames.length).toBeGreaterThan(100)
    for (const { place, asked, conflict } of frames) {
      const { abovePx, belowPx, leftPx, rightPx } = conflict
      const wider: Place = {
        ...place,
        width: place.width + leftPx + rightPx,
        height: place.height + abovePx + belowPx,
        crown: place.crown + abovePx,
        chin: place.chin + abovePx,
        eyeY: place.eyeY + abovePx,
        eyeX: place.eyeX + leftPx,
      }
      // What the small file lacks in pixels is a conflict of its own.
      const { 'pixel-size': size, ...rest } = asked
      const enough = place.width >= 200 && (asked['aspect-ratio'] === undefined || place.height >= 250)
      const advice = solveCrop(measuredAt(wider), askFor(enough ? asked : rest))
      expect(advice, JSON.stringify({ place, asked, size, conflict })).toHaveProperty('crop')
    }
  })

  test('the demands named can’t be met together, but without any one of them', () => {
    for (const { place, asked, conflict } of found) {
      const sitter = sitterOf(measuredAt(place))
      if ('doubts' in sitter) throw new Error('The measurements are of full confidence.')
      const { kind, demands } = conflict
      if (kind === 'pixels' && demands.length === 1) continue
      const solvable = (kept: readonly string[]) => {
        const ask = askFor(Object.fromEntries(Object.entries(asked).filter(([rule]) => kept.includes(rule))))
        const wholeHead = kept.includes('whole-head')
        const framed = kind === 'frame'
        const problem = { sitter, ask, intrusions: [], wholeHead, framed, enoughPixels: true, marginShare: 0 }
        return smallestCrops(problem).length > 0
      }
      const said = JSON.stringify({ place, asked, conflict })
      expect(solvable(demands), said).toBe(false)
      for (const one of demands) {
        const others = demands.filter((each) => each !== one)
        expect(solvable(others), `without ${one}: ${said}`).toBe(true)
      }
    }
  })
})
