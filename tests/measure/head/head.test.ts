import { describe, expect, test } from 'vitest'
import type { FaceGeometry } from '../../../src/measure/face/face-axes.ts'
import type { CrownReading } from '../../../src/measure/head/crown-witnesses.ts'
import { measureHead } from '../../../src/measure/head/head.ts'
import type { Face } from '../../../src/measure/schema/measurements.ts'
import { sitterGeometry } from '../scene.ts'

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

const READING: CrownReading = { crown: { x: 160, y: 40 }, error: 4, doubts: [] }

function head(
  change: { reading?: Partial<CrownReading>; geometry?: Partial<FaceGeometry>; face?: Partial<Face> } = {},
) {
  const face = { ...FACE, ...change.face }
  const geometry = { ...sitterGeometry(0.1, WIDTH, HEIGHT), ...change.geometry }
  const reading = { ...READING, ...change.reading }
  return measureHead(face, { width: WIDTH, height: HEIGHT, geometry, reading })
}

describe('measureHead', () => {
  test('headroom, eye line, head height and centering of a head of known size', () => {
    const measured = head()
    expect(measured.headroomPct).toBeCloseTo(10, 0)
    expect(measured.eyeLinePct).toBeCloseTo(30, 6)
    expect(measured.headHeightPct).toBeCloseTo(40, 0)
    expect(measured.offCenterPct).toBeCloseTo(0, 6)
    expect(measured.doubts).toEqual([])
    expect(measured.confidence).toBeGreaterThan(0.8)
  })

  test('the error of the head height is that of crown and chin, independent of each other', () => {
    const { crownErrorPct, headHeightErrorPct } = head()
    expect(crownErrorPct).toBeGreaterThan(0)
    expect(headHeightErrorPct).toBeCloseTo(crownErrorPct ?? 0, 6)
    // 6 of 400 px.
    expect(head({ geometry: { chinError: 6 } }).headHeightErrorPct).toBeCloseTo(
      Math.hypot(1.5, crownErrorPct ?? 0),
      6,
    )
  })

  test('the error of the eyes is told of the height and of the width', () => {
    const { eyeLineErrorPct, offCenterErrorPct } = head({ geometry: { eyesError: { across: 1, down: 2 } } })
    expect(eyeLineErrorPct).toBeCloseTo((100 * 2) / HEIGHT, 6)
    expect(offCenterErrorPct).toBeCloseTo((100 * 1) / WIDTH, 6)
  })

  test('off center is positive to the right', () => {
    const { midEyes } = sitterGeometry(0.1, WIDTH, HEIGHT)
    expect(head({ geometry: { midEyes: { ...midEyes, x: 0.55 * WIDTH } } }).offCenterPct).toBeCloseTo(5, 6)
  })

  test.each([
    ['a crown in doubt', { reading: { doubts: ['crown-unclear'] } }, 'crown-unclear'],
    ['a face in doubt', { face: { confidence: 0.3, doubts: ['face-uncertain'] } }, 'face-uncertain'],
    ['a chin too near the eyes', { geometry: { chin: { x: 160, y: 130 } } }, 'chin-implausible'],
  ] as const)('%s leaves the head in doubt', (_, change, doubt) => {
    const measured = head(change as Parameters<typeof head>[0])
    expect(measured.doubts).toEqual([doubt])
    expect(measured.confidence).toBeLessThan(0.5)
  })

  test('without a crown there is no headroom, and the eyes are told all the same', () => {
    const measured = head({ reading: { crown: null, doubts: ['crown-unclear'] } })
    expect(measured).toMatchObject({
      crown: null,
      headroomPct: null,
      crownErrorPct: null,
      headHeightPct: null,
    })
    expect(measured.eyeLinePct).toBeCloseTo(30, 6)
  })

  test('without a face there is no head to measure', () => {
    const measured = measureHead({ ...FACE, count: 0 }, null)
    expect(measured).toMatchObject({ headroomPct: null, confidence: 0, doubts: ['no-face'] })
  })
})
