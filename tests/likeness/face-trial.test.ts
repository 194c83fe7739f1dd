import { expect, test } from 'vitest'
import { type ByteGrid, withGrids } from '../../src/kernels/grids/grids.ts'
import { facesMayMatch, onFace } from '../../src/likeness/face-trial.ts'
import { halved, IDENTITY } from '../../src/likeness/luma-grid.ts'
import { seeded } from '../random.ts'

/** Slow light and dark, read at places that are moved right, cells of a face's grid. */
function face(seed: number, right = 0): ByteGrid {
  const random = seeded(seed)
  const waves = Array.from({ length: 6 }, () => [6 * random() - 3, 6 * random() - 3, random()] as const)
  const [columns, rows] = [44, 52]
  const luma = Uint8Array.from({ length: columns * rows }, (_, i) => {
    const [u, v] = [((i % columns) + right) / columns, Math.floor(i / columns) / rows]
    const sum = waves.reduce((all, [x, y, phase]) => all + Math.sin(2 * Math.PI * (x * u + y * v + phase)), 0)
    return Math.max(1, Math.min(255, Math.round(128 + 18 * sum)))
  })
  return { columns, rows, luma }
}

test('faces may match as far as the movement of their heads lays one on the other', () => {
  const mayMatch = (a: ByteGrid, b: ByteGrid, cells: number) =>
    withGrids((grids) => facesMayMatch(grids, halved(a), halved(b), { ...IDENTITY, dx: cells }))
  expect(mayMatch(face(1), face(1), 0)).toBe(true)
  // Four cells of a face are one of its head.
  expect(mayMatch(face(1), face(1, 8), -2)).toBe(true)
  expect(mayMatch(face(1), face(1, 8), 2)).toBe(false)
  expect(mayMatch(face(1), face(2), 0)).toBe(false)
})

test('a movement of the head is one of the face, whose middle is lower and whose cells are finer', () => {
  // The face's middle is 8 of its cells, 2 of the head's, below that of the head: stretched by a tenth from there, it lies 0.8 lower.
  expect(onFace({ a: 1.1, b: 0, dx: 1, dy: 0 })).toEqual({ a: 1.1, b: 0, dx: 4, dy: expect.closeTo(0.8, 9) })
  expect(onFace({ a: 1, b: 0.5, dx: 0, dy: 1 }, 2)).toEqual({ a: 1, b: 0.5, dx: -2, dy: 2 })
})
