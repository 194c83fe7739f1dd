import { describe, expect, test } from 'vitest'
import { alongOf, frameLine, inwardOf } from '../../../src/measure/intrusions/frame-line.ts'

const INSIDE = { x: 50, y: 60 }
const line = (angleDeg: number, rho: number) => frameLine((angleDeg * Math.PI) / 180, rho, 100, 120, INSIDE)

describe('frameLine', () => {
  test('an upright line left of the middle runs from top to bottom', () => {
    const upright = line(0, -30)
    expect(upright).toMatchObject({ from: 'top', to: 'bottom', length: 120 })
    expect(upright?.x).toBeCloseTo(20, 9)
    expect(upright && inwardOf(upright, INSIDE)).toBeCloseTo(30, 9)
    expect(upright && inwardOf(upright, { x: 5, y: 5 })).toBeCloseTo(-15, 9)
    expect(upright && alongOf(upright, { x: 5, y: 5 })).toBeCloseTo(5, 9)
  })

  test('a level line runs from left to right, its inner side below', () => {
    const level = line(90, -40)
    expect(level).toMatchObject({ from: 'left', to: 'right', length: 100 })
    expect(level?.ny).toBeCloseTo(1, 9)
  })

  // The upper left corner lies 50 x cos 45 + 60 x sin 45 from the middle.
  test('a line at 45 degrees cuts a corner off with equal legs', () => {
    const rho = -(110 * Math.SQRT1_2) + 20 * Math.SQRT1_2
    const corner = line(45, rho)
    expect(new Set([corner?.from, corner?.to])).toEqual(new Set(['top', 'left']))
    expect(corner?.length).toBeCloseTo(20 * Math.SQRT2, 6)
  })

  test('the same line with its normal turned round is the same', () => {
    const one = line(0, -30)
    const other = line(180, 30)
    expect(other?.x).toBeCloseTo(one?.x ?? 0, 9)
    expect(other?.nx).toBeCloseTo(one?.nx ?? 0, 9)
  })

  test('a line outside the frame is none', () => {
    expect(line(0, 51)).toBeNull()
    expect(line(90, -61)).toBeNull()
  })
})
