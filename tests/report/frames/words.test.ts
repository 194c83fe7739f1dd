import { describe, expect, test } from 'vitest'
import type { Advice } from '../../../src/frames/advice.ts'
import { adviceSentence } from '../../../src/report/frames/advice-words.ts'
import { driftSentence } from '../../../src/report/frames/drift-words.ts'
import type { Drift } from '../../../src/session/drift.ts'

const ASKS = { rule: 'crop-room', deliverables: ['web'], advisory: false }

test.each<[Omit<Advice, keyof typeof ASKS>, string]>([
  [{ code: 'step-back', pct: 11.2 }, 'Step back or zoom out by 12 %.'],
  [{ code: 'step-closer', pct: 0.1 }, 'Step closer or zoom in by 1 %.'],
  [{ code: 'aim', side: 'up', pct: 4 }, 'Aim higher, or raise the camera, by 4 % of the frame.'],
  [{ code: 'aim', side: 'up' }, 'The head is cut: aim higher or step back.'],
  [{ code: 'clear-edge', side: 'left' }, 'Clear the left edge of the frame, or widen the backdrop.'],
  [
    { code: 'level-camera', deg: 6.31, side: 'clockwise' },
    'Level the camera or the head: 6.4° clockwise in the frame.',
  ],
  [{ code: 'light-backdrop', stops: 0.27 }, '0.3 stop more light on the backdrop.'],
  [{ code: 'light-backdrop', stops: -1.2, side: 'left' }, '1.2 stops less light on the backdrop, left side.'],
  [{ code: 'fill', stops: 0.5 }, '0.5 stop more fill on the face.'],
  [{ code: 'nod-head', deg: 5, side: 'down' }, 'Chin down by 5°.'],
  [{ code: 'tip-spectacles' }, 'Tip the spectacles down, or raise the light.'],
  [
    { code: 'pose', rules: ['headroom', 'whole-head'] },
    'No crop meets headroom and the whole head in the frame together for this head: raise or lower the chin, or check the spec.',
  ],
  [{ code: 'check' }, 'Check crop-room by eye.'],
])('%j', (advice, sentence) => {
  expect(adviceSentence({ ...advice, ...ASKS })).toBe(sentence)
})

describe('drift', () => {
  test.each<[Omit<Drift, 'since' | 'file' | 'frames'>, string]>([
    [{ trait: 'backdrop-lightness', shift: -0.31 }, 'Since 14:05 the backdrop is 0.3 stop darker.'],
    [
      { trait: 'backdrop-tint', shift: 2, hueDeg: 90 },
      'Since 14:05 the backdrop is 2 ΔE*ab more yellow (warm).',
    ],
    [{ trait: 'backdrop-unevenness', shift: 2.2 }, 'Since 14:05 the backdrop is less even by 2.2 L*.'],
    [
      { trait: 'key-ratio', shift: -0.4, side: 'left' },
      'Since 14:05 the face has 0.4 stop less contrast between the cheeks, with the key light from the left.',
    ],
    [{ trait: 'head-size', shift: 100 * Math.log(1.2) }, 'Since 14:05 heads are 20 % larger in the frame.'],
    [{ trait: 'eye-line', shift: -5 }, 'Since 14:05 the eyes are 5 % of the frame higher.'],
  ])('%j', (drift, sentence) => {
    expect(driftSentence({ ...drift, since: 0, file: 'a.jpg', frames: 3 }, '14:05')).toBe(sentence)
  })
})
