import { describe, expect, test } from 'vitest'
import { readCurve } from '../../../../src/measure/file/icc/curve.ts'
import { curv, para, SRGB_CURVE } from './icc-writer.ts'

const at = (tag: Buffer, x: number) => readCurve(tag)?.(x)

describe('curv (ICC.1:2022, 10.6)', () => {
  test('no value: the identity', () => {
    expect(at(curv(), 0.3)).toBe(0.3)
  })

  test('one value: a gamma in 1/256; Adobe RGB (1998) has 563', () => {
    // Worked from the definition: 0.5 ** 2.19921875.
    expect(at(curv(563), 0.5)).toBeCloseTo(0.21776, 5)
  })

  test('a table, read between its values, ends included', () => {
    const table = curv(0, 16384, 65535)
    expect(at(table, 0)).toBe(0)
    expect(at(table, 0.25)).toBeCloseTo(8192 / 65535, 12)
    expect(at(table, 0.5)).toBeCloseTo(16384 / 65535, 12)
    expect(at(table, 0.75)).toBeCloseTo((16384 + 65535) / 2 / 65535, 12)
    expect(at(table, 1)).toBe(1)
  })
})

describe('para (ICC.1:2022, 10.18, Table 68)', () => {
  // Parameters and a point on either side of the break, worked by hand from the table of function types.
  test.each([
    ['type 0: x^g', para(0, 2), 0.5, 0.25],
    ['type 1: (ax + b)^g', para(1, 2, 2, -0.5), 0.5, 0.25],
    ['type 1 below -b/a: 0', para(1, 2, 2, -0.5), 0.2, 0],
    ['type 2: (ax + b)^g + c', para(2, 2, 2, -0.5, 0.125), 0.5, 0.375],
    ['type 2 below -b/a: c', para(2, 2, 2, -0.5, 0.125), 0.2, 0.125],
    ['type 3: (ax + b)^g', para(3, 2, 0.5, 0.25, 0.125, 0.5), 0.5, 0.25],
    ['type 3 below d: cx', para(3, 2, 0.5, 0.25, 0.125, 0.5), 0.25, 0.03125],
    ['type 4: (ax + b)^g + e', para(4, 2, 0.5, 0.25, 0.125, 0.5, 0.0625, 0.25), 0.5, 0.3125],
    ['type 4 below d: cx + f', para(4, 2, 0.5, 0.25, 0.125, 0.5, 0.0625, 0.25), 0.25, 0.28125],
  ] as const)('%s', (_, tag, x, y) => {
    expect(at(tag, x)).toBeCloseTo(y, 12)
  })

  test('sRGB: 0.5 is 0.21404 of the light (IEC 61966-2-1)', () => {
    expect(at(SRGB_CURVE, 0.5)).toBeCloseTo(0.21404, 4)
  })

  test('an unknown function type is no curve', () => {
    expect(readCurve(para(5, 1, 1, 1, 1, 1, 1, 1))).toBeNull()
  })
})

describe('malformed tags', () => {
  test('another type is no curve', () => {
    expect(readCurve(Buffer.from('XYZ \0\0\0\0\0\0\0\0'))).toBeNull()
  })

  test.each([
    ['a table that claims four thousand million values', curv(0, 1, 2).fill(0xff, 8, 12)],
    ['a gamma that is missing', curv(563).subarray(0, 12)],
    ['parameters that are missing', SRGB_CURVE.subarray(0, 20)],
    ['nothing behind the type', Buffer.from('curv')],
  ])('%s', (_, tag) => {
    expect(() => readCurve(tag)).toThrow(RangeError)
  })
})
