import { expect, test } from 'vitest'
import type { NameReading } from '../../src/delivery/name-reading.ts'
import type { Measurements } from '../../src/measure/measurements.ts'
import type { Verdict } from '../../src/rules/outcome.ts'
import type { Rule } from '../../src/rules/rule.ts'

/** A flawless 2400 x 3000 portrait; each case changes what it is about. */
export const GOOD: Measurements = {
  measurer: 1,
  file: 'print/Abara-Nkem_00123.jpg',
  bytes: 1_800_000,
  sha256: '0'.repeat(64),
  format: 'jpeg',
  fault: null,
  widthPx: 2400,
  heightPx: 3000,
  orientationTag: 1,
  ppi: 300,
  bitsPerChannel: 8,
  channels: 3,
  hasAlpha: false,
  color: { space: 'rgb', profile: 'sRGB', profileName: 'sRGB IEC61966-2.1' },
  jpeg: { quality: 92, tables: 'ijg', subsampling: '4:4:4', progressive: false },
  intact: true,
  background: {
    luminanceL: 96,
    evennessL: 1.5,
    chromaC: 0.4,
    hueDeg: 90,
    lab: { L: 96, a: 0, b: 0.4 },
    coveragePct: 45,
    confidence: 0.95,
    doubts: [],
  },
  face: {
    count: 1,
    score: 0.95,
    others: [],
    box: { x: 0.35, y: 0.2, width: 0.3, height: 0.36 },
    leftEye: { x: 0.44, y: 0.37 },
    rightEye: { x: 0.56, y: 0.37 },
    eyeDistancePx: 288,
    tiltDeg: 0.3,
    turnDeg: 1,
    nodDeg: 0,
    confidence: 0.95,
    doubts: [],
  },
  head: {
    crown: { x: 0.5, y: 0.09 },
    chin: { x: 0.5, y: 0.55 },
    headroomPct: 9,
    eyeLinePct: 37,
    headHeightPct: 46,
    offCenterPct: 0.2,
    confidence: 0.9,
    doubts: [],
  },
}

export const GOOD_NAME: NameReading = {
  path: GOOD.file,
  pattern: '{deliverable}/{family}-{given}_{staff-id}.jpg',
  fields: { family: 'Abara', given: 'Nkem', 'staff-id': '00123' },
  deliverable: 'print',
  problems: [],
}

export interface Case {
  readonly what: string
  readonly options: unknown
  readonly measured?: Partial<Measurements>
  readonly name?: Partial<NameReading>
  readonly verdict: Verdict
  /** Words that the reason must hold, and the remedy when it is a fail. */
  readonly says?: readonly string[]
}

/** One test a row: the rule's verdict on the good portrait with the row's changes, and the words it uses. */
export function testCases(rule: Rule, cases: readonly Case[]): void {
  test.each(cases.map((row) => [row.what, row] as const))(`${rule.id}: %s`, (_, row) => {
    const subject = { measured: { ...GOOD, ...row.measured }, name: { ...GOOD_NAME, ...row.name } }
    const finding = rule.judge(subject, row.options)
    const text = `${finding.reason} ${finding.remedy ?? ''}`
    expect(finding.verdict, text).toBe(row.verdict)
    for (const words of row.says ?? []) expect(text).toContain(words)
    if (finding.verdict === 'fail') expect(finding.remedy, 'a failure tells the mend').toBeTruthy()
  })
}
