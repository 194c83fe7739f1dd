import { expect, test } from 'vitest'
import { narrowed } from '../../src/judge/narrow.ts'
import { reportOn } from './sample.ts'

const report = reportOn([{ file: 'print/good.jpg' }, { file: 'print/bad.jpg', measured: { widthPx: 10 } }])

test('only the files asked for count', () => {
  const good = narrowed(report, new Set(['print/good.jpg']))
  expect(good.files.map(({ file }) => file)).toEqual(['print/good.jpg'])
  expect(good.totals.files).toBe(1)
  expect(good.verdict).toBe(good.files[0]?.verdict)
  expect(good.delivery.matrix).toBeNull()
  const bad = narrowed(report, new Set(['print/bad.jpg']))
  expect(bad).toMatchObject({ verdict: 'fail', totals: { files: 1, fail: 1, pass: 0 } })
})

test('nothing judged is nothing passed', () => {
  expect(narrowed(report, new Set())).toMatchObject({ verdict: 'unsure', totals: { files: 0 } })
})

test('the delivery as a whole decides as ever', () => {
  const whole = {
    rule: 'roster',
    advisory: false,
    verdict: 'fail' as const,
    measured: null,
    expected: null,
    reason: 'One is missing.',
    people: ['A'],
    files: [],
  }
  const failing = { ...report, delivery: { outcomes: [whole], matrix: null } }
  expect(narrowed(failing, new Set(['print/good.jpg'])).verdict).toBe('fail')
  expect(narrowed(failing, new Set()).verdict).toBe('fail')
})
