import { describe, expect, test } from 'vitest'
import { faceAngles } from '../../src/measure/face-angles.ts'
import { MESH_INPUT, type MeshPoint } from '../../src/measure/face-mesh.ts'

const SQUARE = { left: 0, top: 0, width: 300, height: 300, score: 1 }
// Half of a face that fills two thirds of the square.
const HALF = 100

/**
 * A flat face turned by yaw, then roll, then pitch, each a rotation of two coordinates by definition: x to the right, y
 * down, z away from the camera, which a mesh has in pixels of its own square.
 */
function flatFace(pitch: number, yaw: number, roll: number): MeshPoint[] {
  const turned = (x: number, y: number): MeshPoint => {
    const [x1, z1] = [x * Math.cos(yaw), -x * Math.sin(yaw)]
    const [x2, y2] = [x1 * Math.cos(roll) - y * Math.sin(roll), x1 * Math.sin(roll) + y * Math.cos(roll)]
    const [y3, z3] = [
      y2 * Math.cos(pitch) - z1 * Math.sin(pitch),
      y2 * Math.sin(pitch) + z1 * Math.cos(pitch),
    ]
    return [150 + x2, 150 + y3, (z3 * MESH_INPUT) / (2 * HALF)]
  }
  const points = Array.from({ length: 468 }, (): MeshPoint => [150, 150, 0])
  points[10] = turned(0, -HALF)
  points[152] = turned(0, HALF)
  points[234] = turned(-HALF, 0)
  points[454] = turned(HALF, 0)
  return points
}

describe('faceAngles', () => {
  test.each([
    [0, 0, 0],
    [0.3, 0, 0],
    [0, -0.4, 0],
    [0, 0, 0.2],
    [-0.25, 0.35, -0.15],
  ])('tells pitch %f and yaw %f at roll %f', (pitch, yaw, roll) => {
    const angles = faceAngles({ score: 1, points: flatFace(pitch, yaw, roll) }, SQUARE)
    expect(angles.pitch).toBeCloseTo(pitch, 6)
    expect(angles.yaw).toBeCloseTo(yaw, 6)
  })

  test('is 0 where all points are one', () => {
    const points = Array.from({ length: 468 }, (): MeshPoint => [7, 7, 0])
    expect(faceAngles({ score: 1, points }, SQUARE)).toEqual({ pitch: 0, yaw: 0 })
  })
})
