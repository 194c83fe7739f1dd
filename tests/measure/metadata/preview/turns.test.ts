import sharp, { type Sharp } from 'sharp'
import { expect, test } from 'vitest'
import { TURNS, turned } from '../../../../src/measure/metadata/preview/turns.ts'

const GRID = [1, 2, 3, 4, 5, 6, 7, 8, 9]

// What sharp (libvips) makes of the same grid.
const OTHER: Readonly<Record<string, (image: Sharp) => Sharp>> = {
  'rotated by 90° clockwise': (image) => image.rotate(90),
  'rotated by 180°': (image) => image.rotate(180),
  'rotated by 90° counterclockwise': (image) => image.rotate(270),
  'mirrored left to right': (image) => image.flop(),
  'mirrored top to bottom': (image) => image.flip(),
}

test.each(TURNS.map((turn) => [turn.name, turn] as const))('%s', async (name, turn) => {
  const raw = { width: 3, height: 3, channels: 1 } as const
  const grid = (image: Sharp) => image.toColourspace('b-w').raw().toBuffer()
  const start = sharp(Uint8Array.from(GRID), { raw })
  const simple = OTHER[name]
  const degrees = name.endsWith('counterclockwise') ? 270 : 90
  const expected = simple
    ? await grid(simple(start))
    : await grid(sharp(await grid(start.flop()), { raw }).rotate(degrees))
  expect([...turned(Float32Array.from(GRID), 3, turn)]).toEqual([...expected])
})
