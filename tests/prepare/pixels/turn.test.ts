import { expect, test } from 'vitest'
import { placeOn, turnedBy } from '../../../src/framing/turned.ts'
import type { Master } from '../../../src/prepare/pixels/decode.ts'
import { turnedMaster } from '../../../src/prepare/pixels/turn.ts'

const [WIDTH, HEIGHT] = [211, 263]
const LINEAR = {
  toXyz: [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ],
  curves: [Number, Number, Number],
} as const

/** A soft dot in an otherwise black picture. */
function dotAt(x: number, y: number): Master {
  const pixels = Buffer.alloc(3 * WIDTH * HEIGHT)
  for (let row = 0, i = 0; row < HEIGHT; row++)
    for (let column = 0; column < WIDTH; column++) {
      const value = Math.round(255 * Math.exp(-((column + 0.5 - x) ** 2 + (row + 0.5 - y) ** 2) / 18))
      for (let channel = 0; channel < 3; channel++) pixels[i++] = value
    }
  return { pixels, widthPx: WIDTH, heightPx: HEIGHT, bits: 8, color: LINEAR, isTabled: false }
}

/** Its center of gravity, in px of the canvas. */
function gravity({ pixels, widthPx, heightPx, origin = { x: 0, y: 0 } }: Master) {
  let [x, y, weight] = [0, 0, 0]
  for (let row = 0; row < heightPx; row++)
    for (let column = 0; column < widthPx; column++) {
      const value = pixels[3 * (row * widthPx + column)] ?? 0
      x += value * (column + 0.5 - origin.x)
      y += value * (row + 0.5 - origin.y)
      weight += value
    }
  return { x: x / weight, y: y / weight }
}

test.each([0.7, -0.7, 2, -3.3, 5, -8])(
  'turned by %d degrees, a place lies where the crop is computed from',
  async (deg) => {
    const place = { x: 71.3, y: 84.6 }
    const found = gravity(await turnedMaster(dotAt(place.x, place.y), deg))
    const wanted = placeOn(turnedBy(deg, { widthPx: WIDTH, heightPx: HEIGHT }), place)
    expect(Math.abs(found.x - wanted.x)).toBeLessThan(0.05)
    expect(Math.abs(found.y - wanted.y)).toBeLessThan(0.05)
  },
)
