import { Ajv } from 'ajv'
import { expect, test } from 'vitest'
import { Report } from '../../src/judge/report.ts'
import { json } from '../../src/report/json.ts'
import { reportOn } from '../judge/sample.ts'
import { head, UNREAD } from '../rules/judging/cases.ts'

const report = reportOn([
  { file: 'b\u001b[2J.jpg', measured: head({ headroomPct: 2 }), name: { fields: { family: 'A\u202e' } } },
  { file: 'a.jpg', measured: UNREAD, name: { deliverable: null } },
  { file: 'c.jpg' },
])

// JSON Schema draft-07, as npm ajv reads it.
test('validates against its schema, in a strict draft-07 validator', () => {
  const ajv = new Ajv({ strict: true, allowUnionTypes: true })
  expect(ajv.validateSchema(Report)).toBe(true)
  const fits = ajv.compile(Report)
  expect(fits(JSON.parse(json(report))), JSON.stringify(fits.errors)).toBe(true)
  expect(fits({ ...report, extra: 1 })).toBe(false)
  expect(fits({ ...report, verdict: 'skip' })).toBe(false)
})

test('reads back as the same report, and ends its line', () => {
  const text = json(report)
  expect(JSON.parse(text)).toEqual(report)
  expect(text.endsWith('}\n')).toBe(true)
})

test('holds no character that a terminal obeys', () => {
  expect(json(report)).toContain('"b\\u001b[2J.jpg"')
  expect(json(report)).toContain('A\\u202e')
  expect(json(report)).not.toMatch(/[^\P{C}\n]/u)
})
