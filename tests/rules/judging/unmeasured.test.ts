import { expect, test } from 'vitest'
import { skipped, unmeasured } from '../../../src/rules/judging/unmeasured.ts'
import { GOOD, UNREAD } from './cases.ts'

test('unsure on a file that can be read, skipped on one that can not', () => {
  expect(unmeasured(GOOD, 'Headroom')).toEqual({
    verdict: 'unsure',
    measured: null,
    expected: null,
    reason: 'Headroom was not measured; check by eye.',
  })
  expect(unmeasured({ ...GOOD, ...UNREAD }, 'Headroom')).toEqual(
    skipped('Not judged: the file could not be read as a complete picture.'),
  )
})
