import { expect, test } from 'vitest'
import { pixelsAt } from '../../src/imaging/pixels-at.ts'

test('some pixels of a picture, one beside the other', () => {
  const picture = { data: Uint8Array.from({ length: 3 * 6 }, (_, i) => i), width: 3, height: 2 }
  expect(pixelsAt(picture, Int32Array.of(4, 0, 4))).toEqual({
    data: Uint8Array.of(12, 13, 14, 0, 1, 2, 12, 13, 14),
    width: 3,
    height: 1,
  })
})
