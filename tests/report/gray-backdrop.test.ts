import stringWidth from 'string-width'
import { describe, expect, test } from 'vitest'
import { loadSpec } from '../../src/brand-spec/load.ts'
import { STARTER_SPEC } from '../../src/brand-spec/starter.ts'
import { readNames } from '../../src/delivery/identify.ts'
import { assembleReport } from '../../src/judge/assemble.ts'
import type { Report } from '../../src/judge/report.ts'
import type { Measurements } from '../../src/measure/schema/measurements.ts'
import { markdown } from '../../src/report/markdown.ts'
import { table } from '../../src/report/table.ts'
import { ALL_RULES } from '../../src/rules/delivery-index.ts'
import { background, GOOD, head, UNREAD } from '../rules/judging/cases.ts'

const loaded = loadSpec(STARTER_SPEC, 'brand.yaml', ALL_RULES)
if (!('spec' in loaded)) throw new Error('The starter spec is sound.')
// Numbers without pictures: there is nothing to compare.
const spec = { ...loaded.spec, settings: { ...loaded.spec.settings, 'duplicate-picture': false } }

type Changes = Readonly<Record<string, Partial<Measurements>>>

/** Number 42 is print/Abara-Duru_Kim_00042.jpg. */
const path = (n: number) => `print/Abara-Duru_Kim_${String(n).padStart(5, '0')}.jpg`
const HUNDRED = Array.from({ length: 100 }, (_, n) => path(n))

/** A faultless set on a gray backdrop, whose light falls off from one portrait to the next, by the starter spec. */
function reportOn(paths: readonly string[] = HUNDRED, changes: Changes = {}): Report {
  const names = readNames(
    paths.map((file) => ({ file, path: `/delivery/${file}` })),
    spec.naming,
    Object.keys(spec.deliverables),
  )
  const files = names.map((name, n) => {
    const measured: Measurements = {
      ...GOOD,
      ...background({ lightnessL: 57 + ((n * 37) % 100) / 20 }),
      sha256: n.toString(16).padStart(64, '0'),
      ...changes[name.path],
      file: name.path,
    }
    return { name, measured }
  })
  const left = { hidden: 0, sidecars: 0, links: 0, other: 0 }
  return assembleReport(
    { tool: { name: 'portrait-gate', version: '0.0.0' }, strict: false, today: '2027-02-03', left, files },
    { spec, roster: null, waivers: [], gallery: null },
  )
}

const FORMATS = [
  ['table at 80 columns', (report: Report, all = false) => table(report, { columns: 80, color: false, all })],
  [
    'table at 140 columns',
    (report: Report, all = false) => table(report, { columns: 140, color: false, all }),
  ],
  ['Markdown', (report: Report, all = false) => markdown(report, { all })],
] as const

describe.each(FORMATS)('%s', (_, render) => {
  test('a hundred good portraits on a gray backdrop read in under 60 lines, and the first 10 tell the cause', () => {
    const lines = render(reportOn()).trimEnd().split('\n')
    expect(lines.length).toBeLessThan(60)
    const first = lines.slice(0, 10).join('\n')
    expect(first).toMatch(/FAIL|fail/)
    expect(first).toMatch(/background-lightness[ |]+100 of 100[ |]+Is the spec right\?/)
    // What is asked, what was measured, and the fix.
    const text = lines.join(' ').replace(/\s+/g, ' ').replaceAll('&#42;', '*')
    expect(text).toContain('Measured 57 L* to 62 L*')
    expect(text).toContain('93.5 to 98.5 L*')
    expect(text).toContain('The backdrop is too dark')
  })

  test('with faults of their own, the worst come first and the rest by name', () => {
    const faults: Changes = {
      [path(70)]: { ...UNREAD, fault: { kind: 'empty', detail: '' }, sha256: null },
      ...Object.fromEntries([3, 4, 5].map((n) => [path(n), head({ headroomPct: 20 })])),
    }
    const misspelled = 'print/Abara-Duru_Kim_9.jpg'
    const report = reportOn([...HUNDRED.slice(0, 99), misspelled], faults)
    const text = render(report)
    const about = (file: string) =>
      text.lastIndexOf(file.replaceAll('_', text.startsWith('##') ? '&#95;' : '_'))
    expect(about(path(70))).toBeGreaterThan(0)
    expect(about(path(70))).toBeLessThan(about(path(3)))
    expect(about(path(5))).toBeLessThan(about(misspelled))
    expect(text.split('\n').length).toBeLessThan(100)
    expect(report.summary.worst.slice(0, 4)).toEqual([70, 3, 4, 5].map(path))
  })

  test('--all tells every finding at its portrait', () => {
    const text = render(reportOn(), true)
    expect(text.match(/The backdrop is too +dark|The backdrop is\s+too dark/g)?.length).toBe(100)
    for (const file of HUNDRED)
      expect(text).toContain(text.startsWith('##') ? file.replaceAll('_', '&#95;') : file)
    expect(text).not.toContain('--all')
  })

  test('twenty portraits are told one by one', () => {
    const text = render(reportOn(HUNDRED.slice(0, 20)))
    for (const file of HUNDRED.slice(0, 20))
      expect(text).toContain(text.startsWith('##') ? file.replaceAll('_', '&#95;') : file)
    expect(text).not.toContain('--all')
  })
})

test.each([40, 80, 140])('no line is wider than %i columns', (columns) => {
  const wide = table(reportOn(), { columns, color: false }).split('\n')
  expect(Math.max(...wide.map((line) => stringWidth(line)))).toBeLessThanOrEqual(columns)
})

test('the facts of the top are data too', () => {
  const { summary } = reportOn()
  expect(summary.rules).toEqual([
    { rule: 'background-lightness', advisory: false, fail: 100, unsure: 0, of: 100, widespread: true },
  ])
  expect(summary.people).toMatchObject({
    expected: 100,
    missing: [],
    double: [],
    unknown: [],
    undelivered: ['web'],
  })
  expect(summary.worst).toHaveLength(100)
})
