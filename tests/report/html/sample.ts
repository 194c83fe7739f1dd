import sharp from 'sharp'
import type { CellState } from '../../../src/judge/matrix.ts'
import type { Report } from '../../../src/judge/report.ts'
import { type HtmlOptions, htmlReport } from '../../../src/report/html/html.ts'
import type { Pictures, SmallPicture } from '../../../src/report/html/pictures.ts'
import { type Delivered, reportOn, SPEC } from '../../judge/sample.ts'
import { face, head, UNREAD } from '../../rules/judging/cases.ts'

export const AT = new Date('2027-02-03T10:00:00Z')

const inPrint = { deliverable: 'print', fields: { family: 'Okafor', given: 'Ada' } }
const inWeb = { deliverable: 'web', fields: { family: 'Lindqvist', given: 'Åsa' } }

/** Of every kind: two fail, one is unsure, one passes with a warning, one passes. */
const DELIVERED: readonly Delivered[] = [
  { file: 'print/Okafor-Ada_00124.jpg', name: inPrint },
  {
    file: 'print/Lindqvist-Åsa_00125.jpg',
    name: { ...inWeb, deliverable: 'print' },
    measured: head({ headroomPct: 4.1 }),
  },
  {
    file: 'web/Lindqvist-Åsa_00125.jpg',
    name: inWeb,
    measured: { widthPx: 800, heightPx: 800, ...face({ tiltDeg: 4.1 }) },
  },
  { file: 'print/Moreau-Luc_00126.jpg', name: inPrint, measured: UNREAD },
  {
    file: 'print/Sato-Rin_00127.jpg',
    name: inPrint,
    measured: head({ confidence: 0.4, doubts: ['crown-implausible'], headroomPct: 7 }),
  },
]

const WAIVER = { reason: 'Retake is booked.', approvedBy: 'A. Abara', until: '2027-12-31' }

const DELIVERY: Report['delivery'] = {
  outcomes: [
    {
      rule: 'roster',
      advisory: false,
      verdict: 'fail',
      measured: 'missing',
      expected: 'the people on the roster',
      reason: '"Abara Nkem" has no portrait in the delivery.',
      fix: 'Deliver the portrait.',
      people: ['Abara Nkem'],
      files: [],
    },
    {
      rule: 'variants',
      advisory: false,
      verdict: 'fail',
      measured: null,
      expected: null,
      reason: 'Two portraits for print.',
      people: [],
      files: ['print/Okafor-Ada_00124.jpg', 'print/Sato-Rin_00127.jpg'],
      waiver: WAIVER,
    },
  ],
  matrix: {
    deliverables: ['print', 'web'],
    rows: [
      row('Abara Nkem', null, ['missing', []], ['absent', []]),
      row(
        'Lindqvist Åsa',
        null,
        ['fail', ['print/Lindqvist-Åsa_00125.jpg']],
        ['pass', ['web/Lindqvist-Åsa_00125.jpg']],
      ),
      row(
        'Sato Rin',
        'on leave',
        ['double', ['print/Okafor-Ada_00124.jpg', 'print/Sato-Rin_00127.jpg']],
        ['unsure', ['print/Sato-Rin_00127.jpg']],
      ),
    ],
    unplaced: ['print/Moreau-Luc_00126.jpg'],
  },
}

type Cell = readonly [state: CellState, files: readonly string[]]

function row(person: string, absent: string | null, ...cells: readonly Cell[]) {
  const shown = cells.map(([state, files]) => ({ state, files: [...files] }))
  return { person, listed: absent === null, absent, perhaps: null, cells: shown }
}

export const REPORT: Report = reportOn(
  DELIVERED,
  { ...SPEC, settings: { ...SPEC.settings, 'eye-line': { min: 33, max: 42 } } },
  {
    delivery: DELIVERY,
    waivers: [{ ...WAIVER, line: 3, rule: 'variants', files: [], people: ['Sato Rin'], state: 'used' }],
  },
)

/** A plain picture of one color, so that whatever differs was drawn on it. */
async function plain(widthPx: number, heightPx: number, background = '#808080'): Promise<SmallPicture> {
  const jpeg = await sharp({ create: { width: widthPx, height: heightPx, channels: 3, background } })
    .jpeg()
    .toBuffer()
  return { widthPx, heightPx, jpeg }
}

/** A plain picture for every file that was read, and eyes for the first. */
export async function picturesFor({ files }: Report): Promise<Pictures> {
  const tall = await plain(320, 400)
  const square = await plain(320, 320)
  const eyes = await plain(560, 220, '#a08070')
  return new Map(
    files
      .filter(({ measurements }) => measurements.fault === null)
      .map(({ file, deliverable }, i) => [
        file,
        { thumbnail: deliverable === 'web' ? square : tall, ...(i === 0 && { eyes }) },
      ]),
  )
}

export async function pageOn(report: Report, options: Partial<HtmlOptions> = {}): Promise<string> {
  return htmlReport(report, { pictures: await picturesFor(report), at: AT, name: 'report.html', ...options })
    .index
}
