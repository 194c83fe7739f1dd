import { expect, test } from 'vitest'
import { withKnown } from '../../src/changes/known.ts'
import { narrowed } from '../../src/judge/narrow.ts'
import { exitCode } from '../../src/judge/report.ts'
import { csv } from '../../src/report/csv.ts'
import { htmlReport } from '../../src/report/html/html.ts'
import { json } from '../../src/report/json.ts'
import { junit } from '../../src/report/junit.ts'
import { markdown } from '../../src/report/markdown.ts'
import { table } from '../../src/report/table.ts'
import { wholeReport } from '../judge/whole.ts'
import { COMPLETE } from '../rules/delivery/delivery-cases.ts'

const at = new Date('2026-11-26T12:00:00Z')
const [changed = '', ...others] = COMPLETE.slice(0, 3)
const judged = new Set([changed])
const whole = wholeReport([changed, ...others])
const { outcomes } = whole.delivery
const report = narrowed(
  { ...whole, delivery: { matrix: null, outcomes: withKnown(outcomes, outcomes, judged) } },
  judged,
)
const REASON = '"Nair Priya 15388" has no portrait for web.'

test('a known finding fails neither the run nor a portrait', () => {
  expect(narrowed(whole, judged).verdict).toBe('fail')
  expect(report).toMatchObject({ verdict: 'pass', totals: { files: 1, pass: 1 } })
  expect(exitCode(report)).toBe(0)
})

test('every output shows it, and as known', () => {
  const shown = table(report, { columns: 200, color: false })
  expect(shown).toContain(`Known before this change, and not counted: 1 finding\n\n  -  variants: ${REASON}`)
  expect(shown).toContain('The delivery as a whole: no new problems.')
  expect(shown).toMatch(/^PASS .*; 1 known finding\./m)
  expect(markdown(report)).toContain('### Known before this change, and not counted: 1 finding')
  expect(markdown(report)).toContain(`| Nair Priya 15388 | variants | ${REASON} |`)
  expect(JSON.parse(json(report)).delivery.outcomes).toContainEqual(
    expect.objectContaining({ rule: 'variants', verdict: 'fail', known: true }),
  )
  expect(csv(report)).toContain('"Nair Priya 15388",,,,"variants","fail","known",')
  const cases = junit(report, { at })
  expect(cases).toContain('<skipped message="Known before this change: ')
  expect(cases).not.toContain('<failure')
  const { index } = htmlReport(report, { at, pictures: new Map(), name: 'report.html' })
  expect(index).toMatch(/<li class="known"><p class="rule">.*<b>variants<\/b> <span>Known before<\/span>/)
})
