import { Ajv } from 'ajv'
import { expect, test } from 'vitest'
import {
  type Background,
  type Face,
  type Finish,
  type Head,
  MEASURER_VERSION,
  type Measurements,
} from '../../../src/measure/schema/measurements.ts'
import type { Metadata } from '../../../src/measure/schema/metadata.ts'
import type { NameReading } from '../../../src/naming/name-reading.ts'
import type { Rename } from '../../../src/naming/rename.ts'
import { Finding, type Verdict } from '../../../src/rules/contract/outcome.ts'
import type { Rule } from '../../../src/rules/contract/rule.ts'

/** Metadata of a portrait that was exported with care: rights and names, and nothing private. */
export const GOOD_METADATA: Metadata = {
  creator: ['Osprey Lane in-house studio'],
  copyright: '© 2026 Osprey Lane Veterinary Group',
  credit: null,
  source: null,
  title: null,
  headline: null,
  description: null,
  altText: 'Portrait of Nkem Abara',
  extendedDescription: null,
  personShown: ['Nkem Abara'],
  keywords: ['staff', 'portrait'],
  captureTime: '2026-03-05T10:21:35.12+00:00',
  rating: 5,
  label: null,
  usageTerms: null,
  webStatement: null,
  gps: false,
  places: [{ item: 'capture-time', where: ['EXIF DateTimeOriginal'] }],
  conflicts: [],
  origin: {
    rawFileName: null,
    preservedFileName: null,
    documentId: null,
    originalDocumentId: null,
    derivedFrom: [],
    ancestors: [],
    imageNumber: null,
    imageUniqueId: null,
  },
  statedSizes: [],
  previews: [],
  opaque: [],
  unreadable: [],
}

/** A flawless 2400 x 3000 portrait; each case changes what it is about. */
export const GOOD: Measurements = {
  measurer: MEASURER_VERSION,
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
  peakChromaC: 28,
  others: [],
  intact: true,
  metadata: GOOD_METADATA,
  background: {
    lightnessL: 96,
    unevennessL: 1.5,
    chromaC: 0.4,
    hueDeg: 90,
    lab: { L: 96, a: 0, b: 0.4 },
    coveragePct: 45,
    plainPct: 100,
    edges: { topPct: 100, rightPct: 70, bottomPct: 8, leftPct: 70 },
    intrusions: [],
    straightening: null,
    fringe: { outlinePct: 2, tone: 'dark', contrastL: 8 },
    holes: { boxes: [], areaPct: 0 },
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
    tiltErrorDeg: 0,
    turnDeg: 1,
    turnErrorDeg: 0,
    nodDeg: 0,
    nodErrorDeg: 0,
    confidence: 0.95,
    doubts: [],
  },
  head: {
    crown: { x: 0.5, y: 0.09 },
    chin: { x: 0.5, y: 0.55 },
    chinErrorPct: 0,
    headroomPct: 9,
    crownErrorPct: 0,
    eyeLinePct: 37,
    eyeLineErrorPct: 0,
    headHeightPct: 46,
    headHeightErrorPct: 0,
    offCenterPct: 0.2,
    offCenterErrorPct: 0,
    confidence: 0.9,
    doubts: [],
  },
  finish: {
    eyeFocusPx: 1,
    focus: {
      eyePx: 1,
      leftPx: 1,
      rightPx: 1.1,
      finestEdgePx: 0.6,
      sharperPlace: null,
      haloPct: 14,
      haloOfGrainPct: 0,
      confidence: 0.9,
      doubts: [],
    },
    enlargement: { found: false, confidence: 1, doubts: [] },
    spectacles: { worn: true, frameContrast: 0.1, confidence: 0.9, doubts: [] },
    lensGlarePct: 0,
    lensGlare: {
      left: { glarePct: 0, box: null, catchlights: 1 },
      right: { glarePct: 0, box: null, catchlights: 1 },
      confidence: 0.9,
      doubts: [],
    },
    clippedHighlightPct: 0,
    clippedShadowPct: 0,
    clipping: { highlightPart: null, shadowPart: null, confidence: 0.9, doubts: [] },
    keySide: 'left',
    keyRatioStops: 0.6,
    keyRatioErrorStops: 0.14,
    key: { confidence: 0.9, doubts: [] },
    skinTint: { lab: { L: 60, a: 13, b: 14 }, hueDeg: 47, hueErrorDeg: 4, confidence: 0.9, doubts: [] },
    eyePair: {
      left: { irisPx: 52, catchlight: { across: -0.4, down: -0.4 } },
      right: { irisPx: 52, catchlight: { across: -0.6, down: -0.4 } },
      irisDifferencePct: 0,
      catchlightsApart: 0.05,
      confidence: 0.9,
      doubts: [],
    },
    skinTexturePct: 0.5,
    texture: { confidence: 0.9, doubts: [] },
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
  readonly rename?: Rename
  readonly verdict: Verdict
  /** Words that the reason must hold, and the fix when it is a fail. */
  readonly says?: readonly string[]
  /** The short columns, where a row checks them. */
  readonly found?: string | null
  readonly asked?: string | null
}

const ajv = new Ajv({ strict: true, allowUnionTypes: true })
const isFinding = ajv.compile(Finding)

/** One test a row: the rule's verdict on the good portrait with the row's changes, and the words it uses. */
export function testCases(rule: Rule, cases: readonly Case[]): void {
  const fits = ajv.compile(rule.options)
  test.each(cases.map((row) => [row.what, row] as const))(`${rule.id}: %s`, (_, row) => {
    expect(fits(row.options), 'options fit the schema').toBe(true)
    expect(rule.problem(row.options), 'options make sense').toBeNull()
    const subject = {
      measured: { ...GOOD, ...row.measured },
      name: { ...GOOD_NAME, ...row.name },
      rename: row.rename,
    }
    const finding = rule.judge(subject, row.options)
    const text = `${finding.reason} ${finding.fix ?? ''}`
    expect(finding.verdict, text).toBe(row.verdict)
    for (const words of row.says ?? []) expect(text).toContain(words)
    const { found = finding.measured, asked = finding.expected } = row
    expect(finding).toMatchObject({ measured: found, expected: asked })
    expect(isFinding(finding)).toBe(true)
    expect(finding.reason).toMatch(/^\P{Ll}.*\.$/su)
    expect(finding.fix !== undefined, 'a failure has a fix, and nothing else').toBe(
      finding.verdict === 'fail',
    )
    expect(finding.fix ?? 'None.').toMatch(/^\P{Ll}.*[.?]$/su)
  })
}

/** Options that the rule must refuse: by its schema, or by a sentence that holds `says`. */
export function testRefused(
  rule: Rule,
  rows: readonly (readonly [what: string, options: unknown, says?: string])[],
): void {
  const fits = ajv.compile(rule.options)
  test.each(rows)(`${rule.id} refuses %s`, (_, options, says) => {
    expect(fits(options), 'fits the schema').toBe(says !== undefined)
    const problem = says === undefined ? '' : rule.problem(options)
    expect(problem).toContain(says ?? '')
  })
}

/** The good portrait's metadata, face, head or backdrop with changes. */
export function metadata(changes: Partial<Metadata>): Partial<Measurements> {
  return { metadata: { ...GOOD_METADATA, ...changes } }
}
export function face(changes: Partial<Face>): Partial<Measurements> {
  return { face: { ...(GOOD.face as Face), ...changes } }
}
export function head(changes: Partial<Head>): Partial<Measurements> {
  return { head: { ...(GOOD.head as Head), ...changes } }
}
export function background(changes: Partial<Background>): Partial<Measurements> {
  return { background: { ...(GOOD.background as Background), ...changes } }
}

export function finish(changes: Partial<Finish>): Partial<Measurements> {
  return { finish: { ...(GOOD.finish as Finish), ...changes } }
}

/** A file cut off before its header could be read to the end. */
export const UNREAD: Partial<Measurements> = {
  fault: { kind: 'truncated', detail: '' },
  widthPx: null,
  heightPx: null,
  orientationTag: null,
  ppi: null,
  bitsPerChannel: null,
  channels: null,
  hasAlpha: null,
  color: null,
  jpeg: null,
  peakChromaC: null,
  intact: false,
  metadata: null,
  background: null,
  face: null,
  head: null,
  finish: null,
}
