import { execFileSync } from 'node:child_process'
import { join } from 'node:path'
import { SaxesParser } from 'saxes'
import { describe, expect, test } from 'vitest'
import type { Report } from '../../src/judge/report.ts'
import { junit } from '../../src/report/junit.ts'
import { reportOn, SPEC } from '../judge/sample.ts'
import { debianTool } from '../outside/debian.ts'
import { face, head, UNREAD } from '../rules/judging/cases.ts'

const AT = new Date('2027-02-03T10:11:12.345Z')
const XSD = join(import.meta.dirname, 'junit.xsd')
const XMLLINT = debianTool('libxml2-utils', 'xmllint')

const DELIVERED = [
  { file: 'print/Okafor-Ada_00124.jpg' },
  {
    file: 'print/Lindqvist-Åsa_00125.jpg',
    measured: { ...head({ headroomPct: 4.1 }), ...face({ tiltDeg: 4.1 }) },
  },
  { file: 'print/Moreau-Luc_00126.jpg', measured: UNREAD },
  { file: 'print/Sato-Rin_00127.jpg', measured: head({ confidence: 0.4, doubts: ['crown-implausible'] }) },
]
const REPORT = reportOn(DELIVERED)

// Control characters and noncharacters, which XML 1.0 forbids (section 2.2), and what would end a tag or an attribute.
const EVERY_CONTROL = Array.from({ length: 0xa0 }, (_, code) => String.fromCharCode(code)).join('')
const HOSTILE = [
  EVERY_CONTROL,
  '<x>&amp;"\'',
  ']]>',
  '\ufffe\uffff\ud800',
  '\u202e\u2028',
  '&#0;',
  ' ',
  '<!--',
]
const hostile = reportOn(
  HOSTILE.map((text) => ({
    file: `${text}.jpg`,
    name: { deliverable: 'print' },
    measured: { color: { space: 'rgb' as const, profile: 'other' as const, profileName: text } },
  })),
  { ...SPEC, brand: HOSTILE.join('') },
)

/** What the validator has to say; empty when the text is valid by the schema. */
function complaints(text: string): string {
  try {
    execFileSync(XMLLINT ?? '', ['--nonet', '--noout', '--schema', XSD, '-'], { input: text, stdio: 'pipe' })
    return ''
  } catch (error) {
    return error instanceof Error && 'stderr' in error ? String(error.stderr) : String(error)
  }
}

// libxml2's xmllint (Debian) as the validator.
describe.skipIf(XMLLINT === null)('valid by the schema', () => {
  test.each<[string, Report]>([
    ['an ordinary report', REPORT],
    ['in a strict run', { ...REPORT, strict: true }],
    ['nothing judged', reportOn([])],
    ['control characters in names and metadata', hostile],
  ])('%s', (_, report) => {
    expect(complaints(junit(report, { at: AT }))).toBe('')
  })

  test('the schema refuses what it should', () => {
    const text = junit(REPORT, { at: AT })
    for (const [from, to] of [
      ['timestamp="2027-02-03T10:11:12"', 'timestamp="2027-02-03T10:11:12Z"'],
      [' hostname="localhost"', ''],
      ['<system-err/>', ''],
      ['failure type="fail" ', 'failure '],
      ['tests="', 'tests="x'],
    ] as const) {
      expect(text).toContain(from)
      expect(complaints(text.replace(from, to)), from).toMatch(/fails to validate/)
    }
  })
})

interface Element {
  readonly name: string
  readonly attributes: Readonly<Record<string, string>>
}

/** Elements in order, as an XML parser (saxes) reads them. */
function elements(text: string): Element[] {
  const found: Element[] = []
  const parser = new SaxesParser()
  parser.on('opentag', ({ name, attributes }) => found.push({ name, attributes: { ...attributes } }))
  parser.on('error', (error) => {
    throw error
  })
  parser.write(text).close()
  return found
}

const suitesOf = (report: Report) =>
  elements(junit(report, { at: AT })).filter(({ name }) => name === 'testsuite')

test('a suite a portrait, with counts that add up', () => {
  const all = elements(junit(REPORT, { at: AT }))
  const suites = all.filter(({ name }) => name === 'testsuite').map(({ attributes }) => attributes)
  expect(suites.map(({ name }) => name)).toEqual(REPORT.files.map(({ file }) => file))
  expect(suites.map(({ id }) => id)).toEqual(['0', '1', '2', '3'])
  const sum = (key: string) => suites.reduce((total, suite) => total + Number(suite[key]), 0)
  expect(sum('tests')).toBe(all.filter(({ name }) => name === 'testcase').length)
  expect(sum('failures')).toBe(all.filter(({ name }) => name === 'failure').length)
  expect(sum('skipped')).toBe(all.filter(({ name }) => name === 'skipped').length)
  expect(sum('failures')).toBeGreaterThan(0)
})

test('what is unsure is never a pass, and fails a strict run', () => {
  const text = junit(REPORT, { at: AT })
  expect(text).toMatch(
    /name="headroom" classname="print\/Sato-Rin_00127.jpg" time="0"><skipped message="Headroom could not/,
  )
  const strict = junit({ ...REPORT, strict: true }, { at: AT })
  expect(strict).toMatch(
    /name="headroom" classname="print\/Sato-Rin_00127.jpg" time="0"><failure type="unsure"/,
  )
})

test('a warning is skipped with its reason, in a strict run too', () => {
  for (const strict of [false, true])
    expect(junit({ ...REPORT, strict }, { at: AT })).toMatch(
      /name="tilt" classname="print\/Lindqvist-Åsa_00125.jpg" time="0"><skipped message="Warning: The eye line is tilted/,
    )
})

test('a finding with an exception is skipped, and says who approved it', () => {
  const waiver = { reason: 'Big hair', approvedBy: 'A. Abara', until: '2027-12-31' }
  const files = REPORT.files.map((file) => ({
    ...file,
    outcomes: file.outcomes.map((one) => (one.rule === 'headroom' ? { ...one, waiver } : one)),
  }))
  const text = junit({ ...REPORT, strict: true, files }, { at: AT })
  expect(text).toMatch(
    /name="headroom" [^>]*><skipped message="Exception approved by A\. Abara until 2027-12-31 \(Big hair\): Headroom is 4\.1/,
  )
})

test('a file on which nothing could be judged is no pass', () => {
  const files = REPORT.files.map((file) => ({ ...file, verdict: 'unsure' as const, outcomes: [] }))
  expect(suitesOf({ ...REPORT, files }).map(({ attributes }) => attributes.skipped)).toEqual([
    '1',
    '1',
    '1',
    '1',
  ])
  expect(suitesOf({ ...REPORT, files, strict: true }).map(({ attributes }) => attributes.failures)).toEqual([
    '1',
    '1',
    '1',
    '1',
  ])
})

test('the delivery as a whole is a suite of its own', () => {
  const outcome = {
    rule: 'roster',
    advisory: false,
    verdict: 'fail' as const,
    measured: null,
    expected: null,
    reason: 'One is missing.',
    people: ['Abara Nkem'],
    files: [],
  }
  const report = reportOn(DELIVERED, SPEC, { delivery: { outcomes: [outcome], matrix: null } })
  const [first] = suitesOf(report)
  expect(first?.attributes).toMatchObject({ name: 'the whole delivery', tests: '1', failures: '1' })
  expect(suitesOf(report)).toHaveLength(5)
})

test('names come back from XML as they are shown everywhere else', () => {
  const names = suitesOf(hostile).map(({ attributes }) => attributes.name)
  expect(names).toContain('<x>&amp;"\'.jpg')
  expect(names).toContain('<U+FFFE><U+FFFF><U+D800>.jpg')
})
