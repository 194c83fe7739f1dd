import { describe, expect, test } from 'vitest'

import type { Conflict, Crop, CropAdvice } from '../../src/framing/advice.ts'
import { cropFix } from '../../src/judge/crop-fix.ts'

const FRAME = { widthPx: 2400, heightPx: 3000 }
const OWN = 'Leave more space above the hair: move the crop up by 57 px.'
const CROP: Crop = {
  crop: { leftPx: 64, topPx: 118, widthPx: 2210, heightPx: 2762 },
  scaleTo: { widthPx: 1200, heightPx: 1500 },
  meets: ['headroom', 'aspect-ratio'],
  tight: false,
  levelFirst: false,
}
const say = (advice: CropAdvice, rule = 'headroom') => cropFix(rule, OWN, advice, FRAME)
const conflict = (one: Conflict, rule = 'headroom') => say({ conflicts: [one] }, rule).fix

describe('a crop', () => {
  test('takes the place of the rule’s own fix, and is told as numbers too', () => {
    expect(say(CROP)).toEqual({
      fix: 'Crop to 2210 x 2762 px from 64 px right and 118 px down of the top left corner, then scale to 1200 x 1500 px.',
      crop: CROP.crop,
    })
  })

  test('without scaling', () => {
    expect(say({ ...CROP, scaleTo: null }).fix).toBe(
      'Crop to 2210 x 2762 px from 64 px right and 118 px down of the top left corner.',
    )
  })

  test.each([
    [0, 118, 'px from 118 px down of the top left corner.'],
    [64, 0, 'px from 64 px right of the top left corner.'],
    [0, 0, 'px from the top left corner.'],
  ])('from %d px right and %d px down', (leftPx, topPx, words) => {
    expect(say({ ...CROP, crop: { ...CROP.crop, leftPx, topPx }, scaleTo: null }).fix).toContain(words)
  })

  test('that only just fits', () => {
    expect(say({ ...CROP, tight: true }).fix).toMatch(/px\. It only just fits: measure again afterwards\.$/)
  })

  test('of a head that has to be leveled first', () => {
    expect(say({ ...CROP, levelFirst: true }).fix).toMatch(
      /^Level the head first \(see tilt\) and measure again, since turning changes the crop; as it is now, crop to 2210/,
    )
  })

  test('of the whole frame is only a scaling', () => {
    const whole = { ...CROP, crop: { leftPx: 0, topPx: 0, ...FRAME } }
    expect(say(whole)).toEqual({ fix: 'Scale the whole picture to 1200 x 1500 px; its framing is right.' })
    expect(say({ ...whole, scaleTo: null })).toEqual({ fix: OWN })
    expect(say({ ...whole, levelFirst: true })).toEqual({ fix: OWN })
  })

  test('that does not meet the rule leaves it its own fix', () => {
    expect(say(CROP, 'centering')).toEqual({ fix: OWN })
  })
})

test('a head in doubt: the rule’s own fix', () => {
  expect(say({ doubts: ['crown-implausible'] })).toEqual({ fix: OWN })
})

describe('no crop: the rule’s own fix, and why', () => {
  const sides = { abovePx: 0, belowPx: 0, leftPx: 0, rightPx: 0 }

  test('the frame ends too soon', () => {
    expect(conflict({ kind: 'frame', demands: ['headroom', 'head-height'], ...sides, abovePx: 43 })).toBe(
      `${OWN} This frame lacks at least 43 px above the head for headroom and head-height: go back to the uncropped frame, or extend the backdrop.`,
    )
  })

  test('on several sides, and with something in the way', () => {
    const text = conflict({
      kind: 'frame',
      demands: ['headroom', 'whole-head', 'backdrop-edge'],
      ...{ abovePx: 1, belowPx: 2, leftPx: 3, rightPx: 4 },
    })
    expect(text).toContain(
      'lacks at least 1 px above the head, 2 px at the bottom, 3 px on the left and 4 px on the right for headroom, the whole head in the frame and backdrop-edge',
    )
    expect(text).toMatch(/or retouch what reaches in at the edge\.$/)
  })

  test('too few pixels', () => {
    const available = { widthPx: 2209, heightPx: 2760 }
    const asked = FRAME
    expect(conflict({ kind: 'pixels', demands: ['headroom', 'pixel-size'], available, asked })).toContain(
      'A crop that meets headroom has at most 2209 x 2760 px where the spec asks for 2400 x 3000 px: 191 px of width and 240 px of height are missing.',
    )
    const file: Conflict = { kind: 'pixels', demands: ['pixel-size'], available, asked }
    expect(conflict(file, 'pixel-size')).toContain('The largest crop that meets the rest has at most 2209 x')
  })

  test('of the file as a whole, which the rule has said already', () => {
    const asked = { widthPx: 4800, heightPx: 6000 }
    const whole: Conflict = { kind: 'pixels', demands: ['pixel-size'], available: FRAME, asked }
    expect(conflict(whole, 'pixel-size')).toBe(OWN)
  })

  test('one edge has enough', () => {
    const available = { widthPx: 2400, heightPx: 2760 }
    const one: Conflict = { kind: 'pixels', demands: ['pixel-size'], available, asked: FRAME }
    expect(conflict(one, 'pixel-size')).toContain(': 240 px of height are missing.')
  })

  test('demands that contradict each other', () => {
    expect(conflict({ kind: 'spec', demands: ['pixel-size', 'aspect-ratio'] }, 'aspect-ratio')).toBe(
      `${OWN} No picture meets pixel-size and aspect-ratio together: correct the spec.`,
    )
    expect(conflict({ kind: 'spec', demands: ['pixel-size'] }, 'pixel-size')).toBe(
      `${OWN} No picture meets pixel-size: correct the spec.`,
    )
    expect(conflict({ kind: 'demands', demands: ['headroom', 'eye-line'] })).toBe(
      `${OWN} No crop meets headroom and eye-line together, of a wider frame either: choose another frame of the sitter, or widen the limits in the spec.`,
    )
    expect(conflict({ kind: 'demands', demands: ['headroom', 'backdrop-edge'] })).toMatch(
      /another frame of the sitter, or retouch what reaches in at the edge\.$/,
    )
    expect(conflict({ kind: 'demands', demands: ['headroom'] })).toBe(
      `${OWN} No crop in whole px meets headroom: widen the limits in the spec.`,
    )
  })

  test('is told only to the rules concerned', () => {
    expect(conflict({ kind: 'demands', demands: ['headroom', 'eye-line'] }, 'centering')).toBe(OWN)
  })
})
