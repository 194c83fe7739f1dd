import { describe, expect, test } from 'vitest'
import { faceAngles } from '../../../../src/measure/face/networks/face-angles.ts'
import type { MeshPoint } from '../../../../src/measure/face/networks/mesh-point.ts'
import { CANONICAL_FACE, canonicalPose } from '../canonical-face.ts'

const WIDTH = 300
const PX_PER_CM = 11
const DEGREES = 180 / Math.PI

type Vector = readonly [x: number, y: number, z: number]

/**
 * The published face, rotated first by roll (clockwise), then pitch (the chin up), then yaw (to the right), each a
 * rotation of two coordinates by definition: x to the right, y down, z away from the camera.
 */
function rotated(pitch: number, yaw: number, roll: number): MeshPoint[] {
  const turned = ([x, y, z]: Vector): MeshPoint => {
    const [x1, y1] = [x * Math.cos(roll) - y * Math.sin(roll), x * Math.sin(roll) + y * Math.cos(roll)]
    const [y2, z2] = [y1 * Math.cos(pitch) + z * Math.sin(pitch), z * Math.cos(pitch) - y1 * Math.sin(pitch)]
    const [x3, z3] = [x1 * Math.cos(yaw) - z2 * Math.sin(yaw), x1 * Math.sin(yaw) + z2 * Math.cos(yaw)]
    return [150 + PX_PER_CM * x3, 150 + PX_PER_CM * y2, PX_PER_CM * z3]
  }
  const points = Array.from({ length: 468 }, (): MeshPoint => [150, 150, 0])
  for (const [index, place] of CANONICAL_FACE) points[index] = turned(place)
  return points
}

function read(points: readonly MeshPoint[]): { turnDeg: number; nodDeg: number } {
  const { pitch, yaw } = faceAngles(points)
  return { turnDeg: -yaw * DEGREES, nodDeg: -pitch * DEGREES }
}

// The line from the chin to the hairline of the published face leans 0.7° by itself.
const LEANS_DEG = 0.8

describe('faceAngles on the published canonical face', () => {
  const angles = [-50, -30, -12, 0, 7, 20, 40]
  const cases = angles.flatMap((yaw) =>
    [-25, -10, 0, 15, 30].flatMap((pitch) => [-20, 0, 9].map((roll) => [pitch, yaw, roll])),
  )

  test.each(cases)('tells nod %i° and turn %i° at roll %i°', (pitch = 0, yaw = 0, roll = 0) => {
    const { turnDeg, nodDeg } = read(rotated(pitch / DEGREES, yaw / DEGREES, roll / DEGREES))
    expect(Math.abs(nodDeg - pitch)).toBeLessThan(LEANS_DEG)
    expect(Math.abs(turnDeg - yaw)).toBeLessThan(LEANS_DEG)
  })

  test.each(cases)(
    'and so does the fit to it, the reference on photographs: %i°, %i°, %i°',
    (p = 0, y = 0, r = 0) => {
      const { turnDeg, nodDeg } = canonicalPose(rotated(p / DEGREES, y / DEGREES, r / DEGREES))
      expect(nodDeg).toBeCloseTo(p, 6)
      expect(turnDeg).toBeCloseTo(y, 6)
    },
  )

  test.each(cases)(
    'mirrored, the turn changes its sign and the nod stays: %i°, %i°, %i°',
    (p = 0, y = 0, r = 0) => {
      const points = rotated(p / DEGREES, y / DEGREES, r / DEGREES)
      const mirrored = points.map(([x, ...rest]): MeshPoint => [WIDTH - x, ...rest])
      const [left, right] = [mirrored[234], mirrored[454]] as [MeshPoint, MeshPoint]
      mirrored[234] = right
      mirrored[454] = left
      const [own, other] = [read(points), read(mirrored)]
      expect(other.turnDeg).toBeCloseTo(-own.turnDeg, 9)
      expect(other.nodDeg).toBeCloseTo(own.nodDeg, 9)
    },
  )

  test('whole pixels, as the mesh has them, move them by 1° at most', () => {
    for (const [pitch = 0, yaw = 0, roll = 0] of cases) {
      const points = rotated(pitch / DEGREES, yaw / DEGREES, roll / DEGREES)
      const cut = read(points.map(([x, y, z]): MeshPoint => [Math.trunc(x), Math.trunc(y), Math.trunc(z)]))
      expect(Math.abs(cut.turnDeg - read(points).turnDeg)).toBeLessThan(1)
      expect(Math.abs(cut.nodDeg - read(points).nodDeg)).toBeLessThan(1)
    }
  })
})

test('is 0 where all points are one', () => {
  const points = Array.from({ length: 468 }, (): MeshPoint => [7, 7, 0])
  const { pitch, yaw } = faceAngles(points)
  expect(Math.abs(pitch)).toBe(0)
  expect(Math.abs(yaw)).toBe(0)
})
