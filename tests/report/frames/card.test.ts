import { Ajv } from 'ajv'
import { parse } from 'csv-parse/sync'
import { describe, expect, test } from 'vitest'
import type { FrameReport } from '../../../src/frames/frame-report.ts'
import { cardCsv } from '../../../src/report/frames/card-csv.ts'
import { cardMarkdown } from '../../../src/report/frames/card-markdown.ts'
import { cardTable } from '../../../src/report/frames/card-table.ts'
import { frameReason } from '../../../src/report/frames/frame-words.ts'
import { CardReport, cardReport } from '../../../src/session/card-report.ts'

const SPEC = { file: 'brand.yaml', brand: 'Osprey Lane Veterinary Group', version: 1 }
const GLARE = {
  ...{ rule: 'lens-glare', advisory: false, verdict: 'fail' as const, deliverables: ['print', 'web'] },
  ...{
    measured: '9 %',
    expected: 'at most 3 %',
    reason: 'Lens glare covers 9 % of an eye; the spec asks for at most 3 %.',
  },
}
const USABLE: FrameReport = {
  ...{
    file: 'a/1.jpg',
    size: { widthPx: 4000, heightPx: 6000 },
    verdict: 'pass',
    scene: [],
    rooms: [],
    advice: [],
  },
  nearest: { rule: 'background-lightness', deliverables: ['print'], marginPct: 12.34 },
}
const GLARING: FrameReport = {
  ...{ ...USABLE, file: 'a/2.jpg', verdict: 'fail', scene: [GLARE] },
  advice: [
    { code: 'tip-spectacles', rule: 'lens-glare', deliverables: ['print', 'web'], advisory: false },
    { code: 'check', rule: 'facing', deliverables: [], advisory: true },
  ],
  nearest: null,
}
const room = { rules: ['headroom'], warned: [], crop: null, pixelsPct: null, doubts: [] }
const CROWDED: FrameReport = {
  ...{ ...USABLE, file: '=1.jpg', verdict: 'fail', nearest: null },
  rooms: [{ ...room, deliverable: 'web', verdict: 'fail' }],
  advice: [{ code: 'step-back', pct: 12, rule: 'crop-room', deliverables: ['web'], advisory: false }],
}

const card = (changes: Partial<Parameters<typeof cardReport>[0]> = {}) =>
  cardReport({
    ...{ tool: { name: 'portrait-gate', version: '0.0.0' }, spec: SPEC, strict: false },
    left: { hidden: 0, sidecars: 0, links: 0, other: 0 },
    frames: [
      { sitter: 'b', frame: { ...CROWDED, pickedBy: [], otherFiles: [] } },
      { sitter: 'a', frame: { ...GLARING, pickedBy: [], otherFiles: [] } },
      { sitter: 'a', frame: { ...USABLE, pickedBy: ['Abara Nkem'], otherFiles: [] } },
    ],
    drift: [
      ...[{ trait: 'backdrop-lightness' as const, since: 0, file: '=1.jpg', frames: 3, shift: -0.3 }],
    ].map((drift) => ({ ...drift, time: '2027-03-01T14:05:10' })),
    ...changes,
  })

describe('the report on a card', () => {
  test('each sitter with the best frame first; without a usable one a sitter fails', () => {
    const report = card()
    expect(new Ajv({ allowUnionTypes: true }).compile(CardReport)(report)).toBe(true)
    expect(
      report.sitters.map(({ sitter, verdict, frames }) => [sitter, verdict, frames.map(({ file }) => file)]),
    ).toEqual([
      ['a', 'pass', ['a/1.jpg', 'a/2.jpg']],
      ['b', 'fail', ['=1.jpg']],
    ])
    expect(report.verdict).toBe('fail')
    expect(report.totals).toEqual({ frames: 3, pass: 1, fail: 2, unsure: 0, sitters: 2, sittersWithout: 1 })
  })

  test('frames whose sitter is not known stand last', () => {
    const frames = [null, 'b'].map((sitter) => ({
      sitter,
      frame: { ...USABLE, pickedBy: [], otherFiles: [] },
    }))
    expect(card({ frames }).sitters.map(({ sitter }) => sitter)).toEqual(['b', null])
  })
})

describe('why a frame stands where it does', () => {
  test.each<[FrameReport, string]>([
    [USABLE, 'Nearest to a limit: background-lightness, with 12.3 % of its range left.'],
    [
      { ...USABLE, nearest: { rule: 'crop-room', deliverables: [], marginPct: 0 } },
      'Nearest to a limit: crop-room, with no pixel to spare.',
    ],
    [GLARING, `${GLARE.reason} Tip the spectacles down, or raise the light.`],
    [CROWDED, 'There is no room for the crop for web. Step back or zoom out by 12 %.'],
    [
      {
        ...CROWDED,
        verdict: 'unsure',
        advice: [],
        rooms: [{ ...room, deliverable: null, verdict: 'unsure', doubts: ['face-turned'] }],
      },
      'Whether there is room for the crop is uncertain: the face is turned too far from the camera; check by eye.',
    ],
    [{ ...USABLE, verdict: 'unsure' }, 'Nothing could be judged.'],
  ])('%#', (frame, sentence) => {
    expect(frameReason(frame)).toBe(sentence)
  })
})

test('as a table', () => {
  expect(cardTable(card(), { columns: 100, color: false })).toMatchInlineSnapshot(`
    "1 of 2 sitters has a usable frame; 1 of 3 frames is usable.
    Osprey Lane Veterinary Group, brand spec version 1 (brand.yaml)

    Since 14:05 the backdrop is 0.3 stop darker.

    a: 1 of 2 frames usable
      usable    a/1.jpg (picked by Abara Nkem)  Nearest to a limit: background-lightness, with 12.3 % of
                                                its range left.
      unusable  a/2.jpg                         Lens glare covers 9 % of an eye; the spec asks for at
                                                most 3 %. Tip the spectacles down, or raise the light.

    b: 0 of 1 frame usable
      unusable  =1.jpg  There is no room for the crop for web. Step back or zoom out by 12 %.
    "
  `)
})

test('as Markdown', () => {
  const text = cardMarkdown(card())
  expect(text).toContain('## 1 of 2 sitters has a usable frame; 1 of 3 frames is usable.')
  expect(text).toContain(
    '| usable | a/1.jpg (picked by Abara Nkem) | Nearest to a limit: background-lightness',
  )
})

test('as CSV: a line a frame, and nothing that a spreadsheet runs', () => {
  const rows: Record<string, string>[] = parse(cardCsv(card()), { bom: true, columns: true })
  expect(rows[2]?.file).toBe("'=1.jpg")
  expect(rows.map((row) => [row.sitter, row.rank, row.standing, row.change])).toEqual([
    ['a', '1', 'usable', ''],
    ['a', '2', 'unusable', 'Tip the spectacles down, or raise the light. Check facing by eye.'],
    ['b', '1', 'unusable', 'Step back or zoom out by 12 %.'],
  ])
})
