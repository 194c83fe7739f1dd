import { describe, expect, test } from 'vitest'
import { findBackdrop, maskAt } from '../../../src/measure/backdrop/backdrop.ts'
import { type Paint, scene, sitter } from '../scene.ts'

const WIDTH = 160
const HEIGHT = 200
const isSitter = sitter(0.1)
const dark: readonly [number, number, number] = [60, 45, 40]

function found(backdropAt: Paint) {
  const picture = scene(WIDTH, HEIGHT, (x, y) => (isSitter(x, y) ? dark : backdropAt(x, y)))
  return findBackdrop(picture.lab, WIDTH, HEIGHT)
}

/** Share of the pixels that the mask tells rightly from the sitter. */
function agreement(mask: Uint8Array): number {
  const right = mask.reduce((n, value, i) => {
    const truth = isSitter(((i % WIDTH) + 0.5) / WIDTH, (Math.floor(i / WIDTH) + 0.5) / HEIGHT)
    return n + (value === (truth ? 0 : 1) ? 1 : 0)
  }, 0)
  return right / mask.length
}

describe('findBackdrop tells the sitter from', () => {
  test('a white backdrop', () => {
    const { mask, kept, residual } = found(() => [244, 244, 244])
    expect(agreement(mask)).toBe(1)
    expect(kept).toBe(1)
    expect(residual).toBeLessThan(1)
  })

  test('a gray backdrop that falls off by a stop from corner to corner', () => {
    const { mask } = found((x, y) => {
      const code = 255 * (0.6 * 2 ** -((x + y) / 2)) ** (1 / 2.2)
      return [code, code, code]
    })
    expect(agreement(mask)).toBe(1)
  })

  test('a backdrop with a color of its own', () => {
    expect(agreement(found(() => [90, 140, 170]).mask)).toBe(1)
  })
})

test('a wall of stripes keeps few border samples or a large residual', () => {
  const { kept, residual } = found((x) => (Math.floor(x * 16) % 2 === 0 ? [230, 230, 230] : [90, 110, 140]))
  expect(kept < 0.75 || residual > 4).toBe(true)
})

test('backdrop seen through a gap that does not reach the edge stays with the sitter', () => {
  const picture = scene(WIDTH, HEIGHT, (x, y) => {
    if (Math.hypot(x - 0.5, y - 0.8) < 0.05) return [244, 244, 244]
    return isSitter(x, y) ? dark : [244, 244, 244]
  })
  const { mask } = findBackdrop(picture.lab, WIDTH, HEIGHT)
  expect(mask[Math.floor(0.8 * HEIGHT) * WIDTH + WIDTH / 2]).toBe(0)
})

test('a wider threshold takes in more, a tighter one less', () => {
  const picture = scene(WIDTH, HEIGHT, (x, y) => (isSitter(x, y) ? [225, 225, 225] : [244, 244, 244]))
  const backdrop = findBackdrop(picture.lab, WIDTH, HEIGHT)
  const size = (mask: Uint8Array) => mask.reduce((n, value) => n + value, 0)
  expect(size(maskAt(backdrop, 8))).toBeGreaterThan(size(maskAt(backdrop, 4)))
})
