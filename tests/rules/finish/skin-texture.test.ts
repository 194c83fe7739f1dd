import { skinTexture } from '../../../src/rules/finish/skin-texture.ts'
import { finish, GOOD, testCases, testRefused, UNREAD } from '../judging/cases.ts'

/** Little texture, and eyes with an edge spread of so many px. */
function blurred(skinTexturePct: number, eyePx: number | null) {
  const focus = GOOD.finish?.focus
  if (!focus) throw new Error('no focus')
  return finish({ skinTexturePct, eyeFocusPx: eyePx, focus: { ...focus, eyePx } })
}

const min = { min: 0.15 }

testCases(skinTexture, [
  { what: 'as it was shot', options: min, verdict: 'pass', found: '0.5 %', asked: 'at least 0.15 %' },
  { what: 'at the limit', options: min, measured: finish({ skinTexturePct: 0.15 }), verdict: 'pass' },
  {
    what: 'just under it',
    options: min,
    measured: blurred(0.148, 0.7),
    verdict: 'fail',
    says: [
      'the fine texture that the retouch left on the skin is 0.1',
      'Go back to the master and smooth the skin less',
    ],
  },
  {
    what: 'nothing left',
    options: min,
    measured: finish({ skinTexturePct: 0 }),
    verdict: 'fail',
    found: '0 %',
  },
  {
    what: 'a picture so soft that the blur accounts for it',
    options: min,
    measured: blurred(0.1, 4),
    verdict: 'unsure',
    found: '0.1 %',
    says: ['edge spread at the eyes 4 px', 'in focus the skin would show about 0.'],
  },
  {
    what: 'a picture that is a little soft, and smoothed',
    options: min,
    measured: blurred(0.05, 1.5),
    verdict: 'fail',
  },
  { what: 'a soft picture with texture enough', options: min, measured: blurred(0.2, 4), verdict: 'pass' },
  {
    what: 'eyes that can not be read',
    options: min,
    measured: blurred(0.1, null),
    verdict: 'unsure',
    says: ['a smoothed skin cannot be told from a soft picture'],
  },
  {
    what: 'skin too small in the file',
    options: min,
    measured: finish({ skinTexturePct: null, texture: { confidence: 0, doubts: ['skin-too-small'] } }),
    verdict: 'unsure',
    says: ['too few pixels of bare skin'],
  },
  {
    what: 'a face that is hardly one',
    options: min,
    measured: finish({ skinTexturePct: 0.05, texture: { confidence: 0.3, doubts: ['face-uncertain'] } }),
    verdict: 'unsure',
  },
  { what: 'not measured', options: min, measured: { finish: null }, verdict: 'unsure' },
  { what: 'unreadable file', options: min, measured: UNREAD, verdict: 'skip' },
])

testRefused(skinTexture, [
  ['no limit', {}],
  ['a limit of nothing', { min: 0 }],
  ['a largest texture: that is the sitter, not the file', { min: 0.1, max: 1 }],
])
