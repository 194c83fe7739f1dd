import { describe, expect, test } from 'vitest'
import { measureFace } from '../../../src/measure/face/face.ts'
import type { LocatedFace } from '../../../src/measure/face/find-faces.ts'
import type { MeshPoint } from '../../../src/measure/face/networks/face-model.ts'

interface Drawn {
  readonly left?: readonly [number, number]
  readonly right?: readonly [number, number]
  readonly breadth?: number
  readonly chin?: readonly [number, number]
  readonly score?: number
  readonly yaw?: number
  readonly pitch?: number
}

/** A face 220 px wide with its irises 100 px apart, in a picture of 1000 x 1250 px; all other mesh points lie between the eyes. */
function face({
  left = [450, 460],
  right = [550, 460],
  breadth = 220,
  chin = [500, 650],
  ...rest
}: Drawn = {}): LocatedFace {
  const mesh: MeshPoint[] = Array.from({ length: 468 }, () => [500, 460, 0])
  mesh[234] = [500 - breadth / 2, 500, 0]
  mesh[454] = [500 + breadth / 2, 500, 0]
  mesh[152] = [...chin, 0]
  return {
    score: 0.95,
    box: [390, 350, breadth, 300],
    mesh,
    irises: [left, right],
    irisesSeen: true,
    pitch: 0,
    yaw: 0,
    ...rest,
  }
}
const read = (largest: LocatedFace, ...others: LocatedFace[]) =>
  measureFace({ largest, others }, 1000, 1250, 2)

describe('measureFace', () => {
  test('tells eyes in fractions and their distance in px of the full size', () => {
    const { face: measured } = read(face())
    expect(measured).toMatchObject({
      count: 1,
      leftEye: { x: 0.45, y: 460 / 1250 },
      rightEye: { x: 0.55, y: 460 / 1250 },
      eyeDistancePx: 200,
      tiltDeg: 0,
      doubts: [],
    })
    expect(measured.confidence).toBe(1)
  })

  test('left and right are as seen in the frame, whichever iris the model names first', () => {
    const { face: measured } = read(face({ left: [550, 460], right: [450, 460] }))
    expect(measured.leftEye?.x).toBeLessThan(measured.rightEye?.x ?? 0)
  })

  test('tilt is positive clockwise: the right eye in the frame lower', () => {
    const drop = 100 * Math.tan((4 * Math.PI) / 180)
    expect(read(face({ right: [550, 460 + drop] })).face.tiltDeg).toBeCloseTo(4, 6)
    expect(read(face({ right: [550, 460 - drop] })).face.tiltDeg).toBeCloseTo(-4, 6)
  })

  test('the chin is the lowest point of the contour along the face axis, not down the frame', () => {
    const tilted = face({ right: [550, 510], chin: [420, 640] })
    const { landmarks } = read(tilted)
    expect(landmarks?.meshChin).toEqual({ x: 420, y: 640 })
    expect(landmarks?.axis.x).toBeLessThan(0)
  })

  test('faces beside the largest are told with their boxes', () => {
    const { face: measured } = read(face(), face({ score: 0.7 }))
    expect(measured.count).toBe(2)
    expect(measured.others).toEqual([{ box: { x: 0.39, y: 0.28, width: 0.22, height: 0.24 }, score: 0.7 }])
  })

  // Interpupillary over bizygomatic breadth is 0.39 to 0.52 in 99 of 100 adults (ANSUR II, public data).
  test.each([
    ['close-set beyond the survey', 340, ['eyes-implausible']],
    ['at the survey mean', 221, []],
    ['wide-set beyond the survey', 150, ['eyes-implausible']],
  ])('eyes %s', (_, breadth, doubts) => {
    const { face: measured } = read(face({ breadth: breadth as number }))
    expect(measured.doubts).toEqual(doubts)
    expect(measured.confidence >= 0.5).toBe(doubts.length === 0)
  })

  test.each([
    ['a weak score', { score: 0.4 }, 'face-uncertain'],
    ['a profile', { yaw: (-45 * Math.PI) / 180, breadth: 170 }, 'face-turned'],
    ['a chin held very high', { pitch: (-45 * Math.PI) / 180 }, 'face-turned'],
    ['a face far away', { left: [496, 460], right: [504, 460], breadth: 18 }, 'face-too-small'],
  ] as const)('%s is in doubt', (_, drawn, doubt) => {
    const { face: measured } = read(face(drawn as Drawn))
    expect(measured.doubts).toContain(doubt)
    expect(measured.confidence).toBeLessThan(0.5)
  })

  test('no face is no measurement', () => {
    expect(measureFace(null, 1000, 1250, 2)).toMatchObject({
      landmarks: null,
      face: { count: 0, confidence: 0, doubts: ['no-face'], tiltDeg: null },
    })
  })
})
