import { expect, test } from 'vitest'
import { creditProblem } from '../../src/published/credit.ts'
import { GOOD_METADATA } from '../rules/judging/cases.ts'

const approved = { ...GOOD_METADATA, creator: ['Mika Oduya'], copyright: 'Osprey Lane' }
const none = { ...GOOD_METADATA, creator: [], copyright: null }
const KEEP = 'Have the website keep the metadata of pictures.'

test.each([
  ['the same', approved, null],
  ['none', none, `it lacks the creator "Mika Oduya" and the copyright notice "Osprey Lane". ${KEEP}`],
  [
    'another creator and no notice',
    { ...none, creator: ['Web Team'] },
    `it lacks the copyright notice "Osprey Lane", and has the creator "Web Team" instead of "Mika Oduya". ${KEEP}`,
  ],
  ['no metadata', null, `it lacks the creator "Mika Oduya" and the copyright notice "Osprey Lane". ${KEEP}`],
])('credit: %s', (_, shown, expected) => {
  const said = creditProblem(shown, approved)
  expect(said).toBe(expected && `Its credit is not that of the approved file: ${expected}`)
})

test('nothing is asked that the approved file does not have', () => {
  expect(creditProblem(approved, none)).toBeNull()
})
