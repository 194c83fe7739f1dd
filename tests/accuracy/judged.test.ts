import { expect, test } from 'vitest'
import { type Judged, tables } from './judged.ts'

/** Ten questions of a group, answered in turn. */
function answers(group: string, verdicts: readonly Judged['verdict'][], error: number): Judged[] {
  return Array.from({ length: 10 }, (_, i) => ({
    measure: 'headroom',
    groups: [group],
    should: i % 2 === 0 ? 'pass' : 'fail',
    verdict: verdicts[i % verdicts.length] ?? 'unsure',
    error: i % 2 === 0 ? error : -error,
    negligible: 0.2,
  }))
}

test('counts false passes, false fails and unsure, and means the absolute errors', () => {
  const [table] = tables([...answers('skin 2', ['pass'], 1), ...answers('skin 10', ['fail', 'unsure'], 3)])
  expect(table?.all).toEqual({ n: 20, falsePasses: 5, falseFails: 5, unsure: 5, meanError: 2 })
  expect(table?.rows.map(({ group }) => group)).toEqual(['skin 2', 'skin 10'])
  expect(table?.rows[0]).toMatchObject({ falsePasses: 5, falseFails: 0, unsure: 0, meanError: 1, over: [] })
  expect(table?.rows[1]).toMatchObject({ falsePasses: 0, falseFails: 5, unsure: 5, meanError: 3 })
  expect(table?.rows[1]?.over).toEqual(['unsure'])
})

test('a group over 1.5 times the mean is told for what it is over in, one of few questions is not', () => {
  const right = answers('skin 1', ['pass', 'fail'], 0.1)
  const wrong = answers('skin 9', ['fail', 'pass'], 1)
  const [table] = tables([...right, ...right, ...wrong])
  expect(table?.rows.map(({ over }) => over)).toEqual([[], ['wrong', 'error']])
  const [few] = tables([...right, ...wrong.slice(0, 9)])
  expect(few?.rows[1]?.over).toEqual([])
})

test('two answers alone and errors too small to matter are not told', () => {
  const right = answers('skin 1', ['pass', 'fail'], 0.01)
  const few = answers('skin 9', ['pass', 'fail'], 0.19).map(
    (one, i): Judged => ({ ...one, verdict: i < 2 ? 'unsure' : one.verdict }),
  )
  const [table] = tables([...right, ...right, ...few])
  expect(table?.rows[1]).toMatchObject({ unsure: 2, over: [] })
})

test('without errors in numbers there is no mean of them', () => {
  const [table] = tables(answers('skin 1', ['pass'], 1).map((one) => ({ ...one, error: null })))
  expect(table?.all.meanError).toBeNull()
})
