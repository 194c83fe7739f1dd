import { expect, test } from 'vitest'
import { COMPLETE } from '../rules/delivery/delivery-cases.ts'
import type { GOOD } from '../rules/judging/cases.ts'
import { wholeReport } from './whole.ts'

const LUND = 'web/Lund-Bjørn_00990.jpg'
const OTHERS = COMPLETE.filter((path) => path !== LUND)
const picture = (digit: string) => ({ sha256: digit.repeat(64) })

/** What the report says of each wrong name: the rule, the file and what is to become of it. */
function renamesWith(paths: readonly string[], changes: Readonly<Record<string, Partial<typeof GOOD>>> = {}) {
  const all = [...OTHERS, ...paths]
  const own = Object.fromEntries(
    all.map((path, i) => [path, { ...picture((i % 10).toString()), ...changes[path] }]),
  )
  const { files, delivery } = wholeReport(all, [], own)
  const outcomes = [...files.flatMap((file) => file.outcomes), ...delivery.outcomes]
  return outcomes.flatMap(({ rule, renames = [], fix }) =>
    renames.map((rename) => ({ rule, fix, ...rename })),
  )
}

test.each([
  ['a copy', 'web/Lund-Bjørn_00990 copy.jpg', ['file-name']],
  ['an accent too many, stored apart', 'web/Lund-Bjørn\u0301_00990.jpg', ['file-name', 'roster']],
  ['letter case', 'web/lund-Bjørn_00990.JPG', ['file-name', 'roster']],
  ['an extension', 'web/Lund-Bjørn_00990.jpeg', ['file-name']],
  ['a misspelling', 'web/Lunt-Bjørn_00990.jpg', ['roster']],
  ['a lost zero', 'web/Lund-Bjørn_990.jpg', ['file-name']],
])('%s has its exact name', (_, from, rules) => {
  const found = renamesWith([from])
  expect(found.map(({ rule }) => rule)).toEqual(rules)
  for (const rename of found)
    expect(rename).toMatchObject({ from, to: LUND, fix: expect.stringContaining(`Rename it to "${LUND}".`) })
})

test('a copy of the same bytes is deleted', () => {
  const from = 'web/Lund-Bjørn_00990 (1).jpg'
  const changes = { [LUND]: picture('a'), [from]: picture('a') }
  expect(renamesWith([LUND, from], changes)).toEqual([
    { rule: 'file-name', from, sameAs: LUND, by: 'bytes', fix: `It is identical to "${LUND}": delete it.` },
  ])
})

test('another picture under the name of a copy is left to a person', () => {
  const from = 'web/Lund-Bjørn_00990 (1).jpg'
  expect(renamesWith([LUND, from])).toMatchObject([{ from, refused: 'clash', wanted: LUND, others: [LUND] }])
})

test('another format is exported, not renamed', () => {
  const from = 'web/Lund-Bjørn_00990.png'
  const found = renamesWith([from], { [from]: { format: 'png' } })
  expect(found).toMatchObject([
    { rule: 'file-name', refused: 'format', fix: `Export it again as JPEG, under the name "${LUND}".` },
  ])
})
