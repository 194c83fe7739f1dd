import { describe, expect, test } from 'vitest'
import { findBackdrop } from '../../../src/measure/backdrop/backdrop.ts'
import { measureBackground } from '../../../src/measure/backdrop/background.ts'
import type { FaceGeometry } from '../../../src/measure/face/face-axes.ts'
import { measureHead } from '../../../src/measure/head/head.ts'
import type { Face } from '../../../src/measure/schema/measurements.ts'
import { type Paint, scene, sitter, sitterGeometry } from '../scene.ts'

const WIDTH = 320
const HEIGHT = 400

const FACE: Face = {
  count: 1,
  score: 0.95,
  others: [],
  box: null,
  leftEye: null,
  rightEye: null,
  eyeDistancePx: 120,
  tiltDeg: 0,
  tiltErrorDeg: 0,
  turnDeg: 0,
  turnErrorDeg: 0,
  nodDeg: 0,
  nodErrorDeg: 0,
  confidence: 1,
  doubts: [],
}

function head(
  crown: number,
  change: { hair?: Paint; backdrop?: Paint; geometry?: Partial<FaceGeometry>; face?: Partial<Face> } = {},
) {
  const isSitter = sitter(crown)
  const { hair = () => [60, 45, 40], backdrop = () => [244, 244, 244] } = change
  const picture = scene(WIDTH, HEIGHT, (x, y) => (isSitter(x, y) ? hair(x, y) : backdrop(x, y)))
  const found = findBackdrop(picture.lab, WIDTH, HEIGHT)
  const face = { ...FACE, ...change.face }
  const geometry = { ...sitterGeometry(crown, WIDTH, HEIGHT), ...change.geometry }
  return measureHead(found, measureBackground(picture.lab, found, 0, null), face, geometry)
}

describe('measureHead', () => {
  test('headroom, eye line, head height and centering of a head of known size', () => {
    const measured = head(0.1)
    expect(measured.headroomPct).toBeCloseTo(10, 0)
    expect(measured.eyeLinePct).toBeCloseTo(30, 6)
    expect(measured.headHeightPct).toBeCloseTo(40, 0)
    expect(measured.offCenterPct).toBeCloseTo(0, 6)
    expect(measured.doubts).toEqual([])
    expect(measured.confidence).toBeGreaterThan(0.8)
  })

  test('the error of the head height is that of crown and chin, independent of each other', () => {
    const { crownErrorPct, headHeightErrorPct } = head(0.1)
    expect(crownErrorPct).toBeGreaterThan(0)
    expect(headHeightErrorPct).toBeCloseTo(crownErrorPct ?? 0, 6)
    // 6 of 400 px.
    expect(head(0.1, { geometry: { chinError: 6 } }).headHeightErrorPct).toBeCloseTo(
      Math.hypot(1.5, crownErrorPct ?? 0),
      6,
    )
  })

  test('the error of the eyes is told of the height and of the width', () => {
    const { eyeLineErrorPct, offCenterErrorPct } = head(0.1, {
      geometry: { eyesError: { across: 1, down: 2 } },
    })
    expect(eyeLineErrorPct).toBeCloseTo((100 * 2) / HEIGHT, 6)
    expect(offCenterErrorPct).toBeCloseTo((100 * 1) / WIDTH, 6)
  })

  test('off center is positive to the right', () => {
    const { midEyes } = sitterGeometry(0.1, WIDTH, HEIGHT)
    expect(head(0.1, { geometry: { midEyes: { ...midEyes, x: 0.55 * WIDTH } } }).offCenterPct).toBeCloseTo(
      5,
      6,
    )
  })

  test.each([
    ['a head that leaves the frame at the top', -0.03, {}, 'crown-out-of-frame'],
    [
      'white hair that passes for white paper',
      0.1,
      { hair: (_: number, y: number) => (y < 0.2 ? [238, 238, 238] : [190, 150, 130]) },
      'crown-implausible',
    ],
    [
      'hair that fades into the paper',
      0.1,
      {
        hair: (_: number, y: number) => {
          const code = Math.round(244 - Math.min(60, Math.max(0, (y - 0.1) * 500)))
          return [code, code, code]
        },
      },
      'crown-merges-with-backdrop',
    ],
    [
      'a wall of stripes',
      0.1,
      { backdrop: (x: number) => (Math.floor(x * 16) % 2 === 0 ? [230, 230, 230] : [90, 110, 140]) },
      'backdrop-not-plain',
    ],
    ['a face in doubt', 0.1, { face: { confidence: 0.3, doubts: ['face-uncertain'] } }, 'face-uncertain'],
    ['a crown too near the eyes for a skull', 0.1, { geometry: { eyeDistance: 100 } }, 'crown-implausible'],
    [
      'a crown too far from the eyes even for big hair',
      0.1,
      { geometry: { eyeDistance: 12 } },
      'crown-implausible',
    ],
  ] as const)('%s is in doubt', (_, crown, change, doubt) => {
    const measured = head(crown, change as Parameters<typeof head>[1])
    expect(measured.doubts).toContain(doubt)
    expect(measured.confidence).toBeLessThan(0.5)
  })

  test('a head that the frame cuts is low for no other reason', () => {
    expect(head(-0.03).doubts).toEqual(['crown-out-of-frame'])
    // Cut above the brows: too little forehead for any skull.
    expect(head(-0.12).doubts).toEqual(['crown-out-of-frame'])
  })

  test('what reaches the top edge far above a head is no head', () => {
    const tall = head(-0.03, { geometry: { eyeDistance: 12 } })
    expect(tall.doubts).toEqual(expect.arrayContaining(['crown-out-of-frame', 'crown-implausible']))
  })

  test('without a face there is no head to measure', () => {
    const picture = scene(WIDTH, HEIGHT, () => [244, 244, 244])
    const found = findBackdrop(picture.lab, WIDTH, HEIGHT)
    const background = measureBackground(picture.lab, found, 0, null)
    const measured = measureHead(found, background, { ...FACE, count: 0 }, null)
    expect(measured).toMatchObject({ headroomPct: null, confidence: 0, doubts: ['no-face'] })
  })
})
