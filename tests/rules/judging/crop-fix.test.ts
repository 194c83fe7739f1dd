import { describe, expect, test } from 'vitest'
import type { CropTold } from '../../../src/framing/crop-box.ts'
import { type CropContext, conflictFix, cropFix } from '../../../src/rules/judging/crop-fix.ts'

const FRAME = { widthPx: 2400, heightPx: 3000 }
const CROP: CropTold = {
  ...{ leftPx: 64, topPx: 118, widthPx: 2210, heightPx: 2762 },
  scaleTo: { widthPx: 1200, heightPx: 1500 },
}
const { scaleTo: _, ...UNSCALED } = CROP
const say = (crop: CropTold, context: Partial<CropContext> = {}) =>
  cropFix(crop, { frame: FRAME, tight: false, levelFirst: false, extendable: [], ...context })

describe('a crop within the file', () => {
  test('in words and in numbers', () => {
    expect(say(CROP)).toEqual({
      fix: 'Crop to 2210 x 2762 px starting 118 px below and 64 px right of the top left corner, then scale to 1200 x 1500 px.',
      crop: CROP,
    })
  })

  test('without scaling', () => {
    expect(say(UNSCALED).fix).toBe(
      'Crop to 2210 x 2762 px starting 118 px below and 64 px right of the top left corner.',
    )
  })

  test.each([
    [0, 118, 'px starting 118 px below the top left corner.'],
    [64, 0, 'px starting 64 px right of the top left corner.'],
    [0, 0, 'px starting at the top left corner.'],
  ])('from %d px right and %d px down', (leftPx, topPx, words) => {
    expect(say({ ...UNSCALED, leftPx, topPx }).fix).toContain(words)
  })

  test('that only just fits', () => {
    expect(say(CROP, { tight: true }).fix).toMatch(/px\. It only just fits: check again afterward\.$/)
  })

  test('of a head that has to be leveled first', () => {
    expect(say(CROP, { levelFirst: true }).fix).toMatch(
      /^Level the head first \(see tilt\) and check again, since rotating changes the crop; as it is now, crop to 2210/,
    )
  })

  test('of the whole frame is only a scaling', () => {
    const whole = { ...CROP, leftPx: 0, topPx: 0, ...FRAME }
    expect(say(whole)).toEqual({
      fix: 'Scale the whole picture to 1200 x 1500 px; its framing is right.',
      crop: whole,
    })
    expect(say({ leftPx: 0, topPx: 0, ...FRAME })).toEqual({ fix: null })
    expect(say(whole, { levelFirst: true })).toEqual({ fix: null })
    // That the file is too small as a whole is what the rule itself says.
    expect(say({ ...whole, scaleTo: { widthPx: 4800, heightPx: 6000 } })).toEqual({ fix: null })
  })

  test('of fewer pixels than are asked is made from the original', () => {
    expect(say({ ...CROP, scaleTo: FRAME }).fix).toBe(
      'Go back to the full-size original and take 2210 x 2762 px starting 118 px below and 64 px right of the top left corner of this file, and export that at 2400 x 3000 px. This file lacks 190 px of width and 238 px of height for that.',
    )
    const low = { ...CROP, widthPx: 2400, leftPx: 0, topPx: 0, scaleTo: FRAME }
    expect(say(low).fix).toContain('This file lacks 238 px of height for that.')
  })
})

describe('a crop that reaches beyond the file', () => {
  const missing = { abovePx: 0, belowPx: 0, leftPx: 0, rightPx: 0 }
  const above = { ...UNSCALED, topPx: -43, missing: { ...missing, abovePx: 43 } }

  test('is made from the uncropped frame', () => {
    expect(say(above).fix).toBe(
      'Go back to the uncropped frame and take 2210 x 2762 px starting 43 px above and 64 px right of the top left corner of this file. This file lacks 43 px above the head.',
    )
  })

  test('or of an extended backdrop, only where it is the backdrop that ends', () => {
    expect(say(above, { extendable: ['abovePx'] }).fix).toContain(
      'This file lacks 43 px above the head; the backdrop could be extended there instead.',
    )
    const around = { ...above, leftPx: -3, missing: { abovePx: 43, belowPx: 2, leftPx: 3, rightPx: 4 } }
    expect(say(around, { extendable: ['abovePx', 'rightPx'] }).fix).toContain(
      'lacks 43 px above the head, 2 px at the bottom, 3 px on the left and 4 px on the right; the backdrop could be extended above the head and on the right, but not at the bottom and on the left.',
    )
    expect(say(around, { extendable: [] }).fix).not.toContain('backdrop')
  })

  test('and has fewer pixels too', () => {
    expect(say({ ...above, scaleTo: FRAME }).fix).toContain(
      'of this file, and export that at 2400 x 3000 px.',
    )
  })
})

test('demands that contradict each other', () => {
  expect(conflictFix({ kind: 'spec', demands: ['pixel-size', 'aspect-ratio'] })).toBe(
    'No picture meets pixel-size and aspect-ratio together: correct the spec.',
  )
  expect(conflictFix({ kind: 'spec', demands: ['pixel-size'] })).toBe(
    'No picture meets pixel-size: correct the spec.',
  )
  expect(conflictFix({ kind: 'demands', demands: ['whole-head', 'eye-line'] })).toBe(
    'No crop, even of a wider frame, meets the whole head in the frame and eye-line together: choose another frame of the sitter, or widen the limits in the spec.',
  )
  expect(conflictFix({ kind: 'demands', demands: ['headroom', 'backdrop-edge'] })).toMatch(
    /another frame of the sitter, or retouch what intrudes at the edge\.$/,
  )
  expect(conflictFix({ kind: 'demands', demands: ['headroom'] })).toBe(
    'No crop in whole px meets headroom: widen the limits in the spec.',
  )
})
