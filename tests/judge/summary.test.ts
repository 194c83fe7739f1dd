import { describe, expect, test } from 'vitest'
import { COMPLETE, STAFF } from '../rules/delivery/delivery-cases.ts'
import { face, head, metadata, UNREAD } from '../rules/judging/cases.ts'
import { type Delivered, reportOn, SPEC } from './sample.ts'
import { wholeReport } from './whole.ts'

const SECOND = { x: 0.05, y: 0.2, width: 0.3, height: 0.36 }
const spec = {
  ...SPEC,
  settings: { ...SPEC.settings, 'one-face': true, 'metadata-forbidden': ['location'], 'file-name': {} },
}

test('the worst files come first: by verdict, by what a miss does to the portrait, by the number of misses, by path', () => {
  const delivered: Delivered[] = [
    { file: 'a-passes.jpg' },
    { file: 'b-warns.jpg', measured: face({ tiltDeg: 4 }) },
    { file: 'c-unsure.jpg', measured: head({ confidence: 0.1, doubts: ['crown-implausible'] }) },
    {
      file: 'd-label.jpg',
      measured: metadata({ places: [{ item: 'coordinates', where: ['EXIF GPSLatitude'] }] }),
    },
    { file: 'e-file.jpg', measured: { widthPx: 1200, heightPx: 1500 } },
    { file: 'f-picture.jpg', measured: head({ headroomPct: 20 }) },
    {
      file: 'g-two.jpg',
      measured: {
        ...head({ headroomPct: 20 }),
        color: { space: 'rgb', profile: 'other', profileName: 'ProPhoto' },
      },
    },
    { file: 'h-two-faces.jpg', measured: face({ count: 2, others: [{ score: 0.95, box: SECOND }] }) },
    { file: 'i-empty.jpg', measured: { ...UNREAD, fault: { kind: 'empty', detail: '' } } },
  ]
  const shuffled = [4, 7, 0, 8, 2, 6, 1, 3, 5].flatMap((i) => delivered[i] ?? [])
  expect(reportOn(shuffled, spec).summary.worst).toEqual(
    ['h', 'i', 'g', 'f', 'e', 'd', 'c', 'b'].flatMap(
      (letter) => delivered.find(({ file }) => file[0] === letter)?.file ?? [],
    ),
  )
})

describe('a rule that nearly all miss asks about the spec', () => {
  const widespread = (
    failing: number,
    of: number,
    delivered: Partial<Delivered> = { measured: head({ headroomPct: 20 }) },
  ) =>
    reportOn(
      Array.from({ length: of }, (_, i) => ({ file: `${i}.jpg`, ...(i < failing && delivered) })),
      SPEC,
    ).summary.rules[0]

  test.each([
    [5, 5, true],
    [4, 4, false],
    [9, 10, true],
    [8, 9, false],
    [90, 100, true],
    [89, 100, false],
  ])('%i of %i: %s', (failing, of, asks) => {
    expect(widespread(failing, of)).toMatchObject({ rule: 'headroom', fail: failing, of, widespread: asks })
  })

  test('not where the pictures are damaged, nor where it could not be measured', () => {
    expect(widespread(9, 9, { measured: UNREAD })).toMatchObject({ rule: 'intact', widespread: false })
    const doubted = head({ confidence: 0.1, doubts: ['crown-implausible'] })
    expect(widespread(9, 9, { measured: doubted })).toMatchObject({ fail: 0, unsure: 9, widespread: false })
  })
})

test('people: missing, without a deliverable, double, unknown', () => {
  const staff = `${STAFF.trimEnd()}\nQuist,Ada,20000,\n`
  const extra = ['print/Stranger-Ida_99999.jpg', 'late/print/Nair-Priya_15388.jpg']
  const { people } = wholeReport([...COMPLETE.slice(1), ...extra], [], {}, staff).summary
  expect(people).toEqual({
    expected: 3,
    missing: ['Quist Ada 20000'],
    incomplete: ['Lund Bjørn 00990'],
    perhaps: [],
    double: ['Nair Priya 15388'],
    unknown: ['Stranger Ida 99999'],
    undelivered: [],
  })
})

test('a deliverable that nobody has is told once', () => {
  const { people } = wholeReport(COMPLETE.filter((file) => file.startsWith('web'))).summary
  expect(people).toMatchObject({ undelivered: ['print'], incomplete: [], missing: [] })
})

test('nobody is missing whose file lies in no folder of a deliverable', () => {
  const { people } = wholeReport(['late/Lund-Bjørn_00990.jpg']).summary
  expect(people).toMatchObject({
    missing: ['Nair Priya 15388'],
    incomplete: [],
    undelivered: ['print', 'web'],
  })
})

test('a file that misses a rule twice is counted once, by the worse', () => {
  const finding = (file: string, verdict: 'fail' | 'unsure') => ({
    ...{ rule: 'set-match', advisory: false, people: [], files: [file], measured: null, expected: null },
    ...{ verdict, reason: 'It stands out.' },
  })
  const outcomes = [
    ...[finding('a.jpg', 'unsure'), finding('a.jpg', 'fail'), finding('a.jpg', 'unsure')],
    ...[finding('b.jpg', 'unsure'), finding('b.jpg', 'unsure')],
  ]
  const files = ['a.jpg', 'b.jpg', 'c.jpg'].map((file) => ({ file }))
  const { rules } = reportOn(files, SPEC, { delivery: { outcomes, matrix: null } }).summary
  expect(rules.find(({ rule }) => rule === 'set-match')).toMatchObject({ fail: 1, unsure: 1, of: 3 })
})
