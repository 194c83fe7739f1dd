import { expect, test } from 'vitest'
import { findBackdrop } from '../../../src/measure/backdrop/backdrop.ts'
import { findCrown } from '../../../src/measure/head/crown.ts'
import { headColumns } from '../../../src/measure/head/head-columns.ts'
import { scene, sitter, sitterGeometry } from '../scene.ts'

const WIDTH = 400
const HEIGHT = 500
const WHITE = [244, 244, 244] as const
const HAIR = [60, 45, 40] as const

function crownY(crown: number, extra: (x: number, y: number) => boolean = () => false): number | undefined {
  const isSitter = sitter(crown)
  const picture = scene(WIDTH, HEIGHT, (x, y) => (isSitter(x, y) || extra(x, y) ? HAIR : WHITE))
  const { mask, distance } = findBackdrop(picture.lab, WIDTH, HEIGHT)
  const face = sitterGeometry(crown, WIDTH, HEIGHT)
  const found = findCrown({ data: mask, width: WIDTH, height: HEIGHT }, distance, face, headColumns(face, 0))
  return found === null ? undefined : found.y / HEIGHT
}

test.each([0.03, 0.08, 0.15, 0.25])('the crown of a smooth head at %f of the height', (crown) => {
  expect(Math.abs((crownY(crown) ?? 1) - crown)).toBeLessThan(0.006)
})

test('single strands that stand up or lie across do not count', () => {
  const up = (x: number, y: number) => Math.abs(x - 0.5) < 0.002 && y > 0.08 && y < 0.2
  const across = (x: number, y: number) => Math.abs(y - 0.1) < 0.0015 && Math.abs(x - 0.5) < 0.06
  expect(Math.abs((crownY(0.15, (x, y) => up(x, y) || across(x, y)) ?? 1) - 0.15)).toBeLessThan(0.006)
})

test('a bun counts, a lamp that hangs free above the head does not', () => {
  const bun = (x: number, y: number) => Math.hypot((x - 0.5) * 0.8, y - 0.13) < 0.03
  expect(Math.abs((crownY(0.15, bun) ?? 1) - 0.1)).toBeLessThan(0.006)
  const lamp = (x: number, y: number) => Math.abs(x - 0.5) < 0.05 && y < 0.05
  expect(Math.abs((crownY(0.15, lamp) ?? 1) - 0.15)).toBeLessThan(0.006)
})

test('no crown when the face itself passes for backdrop', () => {
  const picture = scene(WIDTH, HEIGHT, () => WHITE)
  const { mask, distance } = findBackdrop(picture.lab, WIDTH, HEIGHT)
  const face = sitterGeometry(0.1, WIDTH, HEIGHT)
  expect(
    findCrown({ data: mask, width: WIDTH, height: HEIGHT }, distance, face, headColumns(face, 0)),
  ).toBeNull()
})
