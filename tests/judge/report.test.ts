import { describe, expect, test } from 'vitest'
import { buildReport, exitCode } from '../../src/judge/report.ts'
import { isWarning } from '../../src/judge/verdict.ts'
import type { Outcome } from '../../src/rules/contract/outcome.ts'
import { GOOD, GOOD_NAME } from '../rules/judging/cases.ts'
import { reportOn, SPEC } from './sample.ts'

const outcome = (verdict: Outcome['verdict'], advisory = false): Outcome => ({
  rule: 'headroom',
  advisory,
  verdict,
  measured: null,
  expected: null,
  reason: 'So it is.',
})
const report = (...files: Outcome[][]) =>
  buildReport({
    tool: { name: 'portrait-gate', version: '0.0.0' },
    spec: SPEC,
    strict: false,
    left: { hidden: 1, sidecars: 2, links: 3, other: 4 },
    files: files.map((outcomes, i) => ({
      name: { ...GOOD_NAME, path: `${i}.jpg` },
      measured: GOOD,
      outcomes,
    })),
  })

describe('verdict on a file', () => {
  test.each([
    ['a fail beats all', [outcome('pass'), outcome('unsure'), outcome('fail'), outcome('skip')], 'fail'],
    ['unsure beats pass', [outcome('pass'), outcome('unsure')], 'unsure'],
    ['pass', [outcome('pass'), outcome('skip')], 'pass'],
    ['an advisory fail is a warning', [outcome('pass'), outcome('fail', true)], 'pass'],
    ['an advisory unsure is one too', [outcome('pass'), outcome('unsure', true)], 'pass'],
    ['all skipped is no pass', [outcome('skip'), outcome('skip')], 'unsure'],
    ['nothing judged is no pass', [], 'unsure'],
  ] as const)('%s', (_, outcomes, verdict) => {
    expect(report([...outcomes]).files[0]?.verdict).toBe(verdict)
  })
})

describe('verdict on the delivery and exit code', () => {
  const pass = [outcome('pass')]
  const unsure = [outcome('unsure')]
  const fail = [outcome('fail')]
  test.each([
    ['all pass', [pass, pass], 'pass', 0, 0],
    ['one unsure', [pass, unsure], 'unsure', 0, 1],
    ['one fails', [pass, unsure, fail], 'fail', 1, 1],
    ['nothing', [], 'unsure', 0, 1],
  ] as const)('%s', (_, files, verdict, code, strictCode) => {
    const built = report(...files.map((outcomes) => [...outcomes]))
    expect(built.verdict).toBe(verdict)
    expect(exitCode(built)).toBe(code)
    expect(exitCode({ ...built, strict: true })).toBe(strictCode)
  })
})

test('totals', () => {
  const { totals } = report(
    [outcome('pass'), outcome('fail', true), outcome('unsure', true)],
    [outcome('fail'), outcome('fail', true), outcome('pass', true)],
    [outcome('unsure')],
  )
  expect(totals).toEqual({ files: 3, pass: 1, fail: 1, unsure: 1, warnings: 3, waived: 0 })
  expect(isWarning(outcome('pass', true))).toBe(false)
  expect(isWarning(outcome('fail'))).toBe(false)
})

test('holds what was judged, by path, and no more of the spec than its name', () => {
  const built = reportOn([{ file: 'b.jpg' }, { file: 'B.jpg' }, { file: 'a/z.jpg' }, { file: 'a.jpg' }])
  expect(built.files.map(({ file }) => file)).toEqual(['B.jpg', 'a.jpg', 'a/z.jpg', 'b.jpg'])
  expect(built.spec).toEqual({ file: 'brand.yaml', brand: 'Osprey Lane Veterinary Group', version: 1 })
  expect(built.files[0]).toMatchObject({ deliverable: 'print', fields: GOOD_NAME.fields })
  expect(built.files[0]?.measurements.heightPx).toBe(3000)
  expect(JSON.parse(JSON.stringify(built))).toEqual(built)
})
