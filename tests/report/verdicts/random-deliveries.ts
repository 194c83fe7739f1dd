import { readNames } from '../../../src/delivery/identify.ts'
import { assembleReport } from '../../../src/judge/assemble.ts'
import { narrowed } from '../../../src/judge/narrow.ts'
import type { Report } from '../../../src/judge/report.ts'
import type { Measurements } from '../../../src/measure/schema/measurements.ts'
import { parsePattern } from '../../../src/naming/naming.ts'
import { readRoster } from '../../../src/people/roster.ts'
import { DELIVERY_RULES } from '../../../src/rules/delivery-index.ts'
import type { Waiver } from '../../../src/waivers/waiver.ts'
import { SPEC } from '../../judge/sample.ts'
import { seeded } from '../../random.ts'
import { background, face, finish, GOOD, head, metadata } from '../../rules/judging/cases.ts'

const DELIVERABLES = ['print', 'web']
const parsed = parsePattern(
  '{deliverable}/{family}-{given}_{staff-id}.jpg',
  { 'staff-id': { digits: 5 } },
  DELIVERABLES,
)
if ('problems' in parsed) throw new Error('The pattern is sound.')
const { pattern: naming } = parsed

const FAMILIES = [
  'Abara',
  'Bell',
  'Castro',
  'Dhillon',
  'Eriksen',
  'Farouk',
  'Grieve',
  'Haile',
  'Ikeda',
  'Lund',
]

/** Settings that a spec may have or not, with limits of its own. */
const SETTINGS: Readonly<Record<string, (random: () => number) => unknown>> = {
  roster: () => 'staff.csv',
  variants: () => 'all',
  'duplicate-picture': () => 'none',
  'same-frame': () => 'all',
  'picked-frame': () => 'roster',
  'set-match': (random) => ({ 'max-score': 2 + 3 * random() }),
  'color-space': () => 'sRGB',
  'pixel-size': (random) => ({ width: random() < 0.9 ? 2400 : 1200 }),
  resolution: () => ({ ppi: 300 }),
  compression: () => ({ quality: { min: 90 }, progressive: false }),
  'metadata-forbidden': () => ['location'],
  'background-lightness': (random) => ({ min: 90 + 8 * random() }),
  headroom: (random) => ({ min: 3 + 5 * random(), max: 9 + 4 * random() }),
  'head-height': (random) => ({ max: 46 + 8 * random() }),
  centering: (random) => ({ max: 3 * random() }),
  tilt: () => ({ max: 2 }),
  'eye-focus': (random) => ({ max: 0.8 + 2 * random() }),
  'lens-glare': () => ({ max: 3 }),
  'one-face': (random) => random() < 0.8,
  intact: (random) => random() < 0.8,
}
/** Those of them that a spec sets once, for all deliverables. */
const OF_ALL: readonly string[] = DELIVERY_RULES.map(({ id }) => id)
const UNREAD = { background: null, face: null, head: null, finish: null, metadata: null, intact: null }
const FAULTS: readonly Partial<Measurements>[] = [
  {},
  {},
  {},
  head({ headroomPct: 2 }),
  head({ headroomPct: 9.9, headHeightPct: 60 }),
  head({ confidence: 0.2, doubts: ['crown-implausible'] }),
  face({ tiltDeg: 5 }),
  face({ count: 0, confidence: 0, doubts: ['no-face'], box: null }),
  { sha256: 'f'.repeat(64) },
  {
    sha256: null,
    format: null,
    widthPx: null,
    heightPx: null,
    fault: { kind: 'empty', detail: '' },
    ...UNREAD,
  },
  background({ lightnessL: 80 }),
  background({ confidence: 0.3, doubts: ['backdrop-not-plain'] }),
  finish({ lensGlarePct: 9 }),
  { ppi: 72, orientationTag: 6 },
  { color: { space: 'cmyk', profile: 'none', profileName: null } },
  { format: 'png', jpeg: null },
  metadata({ places: [{ item: 'coordinates', where: ['EXIF GPSLatitude'] }] }),
  metadata({
    origin: { ...(GOOD.metadata as NonNullable<typeof GOOD.metadata>).origin, rawFileName: 'A_0007.RAF' },
  }),
]
const SPOILED: readonly ((path: string) => string)[] = [
  (path) => path.replace('.jpg', ' copy.jpg'),
  (path) => path.replace('.jpg', '.jpeg'),
  (path) => path.replace('-', '_'),
  (path) => path.replace('_0', '_'),
  (path) => path.replace('web/', 'wep/'),
  (path) => `late/${path}`,
  (path) => path.replace(/^(?:print|web)/, 'export 3'),
  (path) => path.replace('.jpg', '_final.jpg'),
  (path) => path.replace(/[a-z]-/, 'x-'),
  (path) => path.toLowerCase(),
]

/** A delivery of up to ten people as nobody would wish it, judged by a spec of some of the rules; or the report on some of its files. */
export function randomReport(seed: number): Report {
  const random = seeded(seed)
  const often = (share: number) => random() < share
  const some = <T>(values: readonly T[]) => values[Math.floor(random() * values.length)] as T
  const people = FAMILIES.slice(0, 1 + Math.floor(random() * FAMILIES.length))
  const id = (family: string) => `${10 + FAMILIES.indexOf(family)}`.padStart(5, '0')
  const rows = people.map((family) => [
    family,
    'Kim',
    id(family),
    often(0.3) ? '7' : '',
    often(0.1) ? 'ill' : '',
    often(0.1) ? some(['2020-01-31', '2999-01-31']) : '',
  ])
  const text = `family,given,staff-id,pick,absent,left\n${rows.map((row) => `${row.join(',')}\n`).join('')}`
  const roster = readRoster({ file: 'staff.csv', text }, naming)
  if ('problems' in roster) throw new Error(JSON.stringify(roster.problems))
  const paths = people.flatMap((family) =>
    DELIVERABLES.flatMap((deliverable) => {
      const path = `${deliverable}/${family}-Kim_${id(family)}.jpg`
      if (often(0.1)) return []
      if (often(0.12)) return [path, some(SPOILED)(path)]
      return [often(0.12) ? some(SPOILED)(path) : path]
    }),
  )
  const found = [...new Set(paths)].map((file) => ({ file, path: `/delivery/${file}` }))
  const clean = often(0.2)
  const files = readNames(found, naming, DELIVERABLES).map((name, i) => ({
    name,
    measured: {
      ...GOOD,
      sha256: i.toString(16).padStart(64, '0'),
      ...(clean || often(0.5) ? {} : some(FAULTS)),
      file: name.path,
    },
  }))
  const rules = Object.entries(SETTINGS)
    .filter(() => often(0.7))
    .map(([rule, settingOf]): [string, unknown] => [rule, settingOf(random)])
  const ofPrint = rules.filter(([rule]) => !OF_ALL.includes(rule) && often(0.2))
  const waivers = files
    .filter(() => often(0.1))
    .map(({ name }, line): Waiver => {
      const rule = some(rules)?.[0] ?? 'tilt'
      const grant = { reason: 'It is so.', approvedBy: 'Ingrid Vale', until: '2027-03-31' }
      return { ...grant, line: line + 1, rule, files: [name.path], people: [] }
    })
  const report = assembleReport(
    {
      ...{ tool: { name: 'portrait-gate', version: '0.0.0' }, strict: often(0.3), today: '2026-11-25' },
      ...{ left: { hidden: 0, sidecars: 0, links: 0, other: 0 }, files },
    },
    {
      spec: {
        ...{ ...SPEC, naming },
        settings: Object.fromEntries(rules.filter((one) => !ofPrint.includes(one))),
        deliverables: { print: Object.fromEntries(ofPrint), web: {} },
        advisory: rules.map(([rule]) => rule).filter(() => often(0.15)),
      },
      ...{ roster: often(0.8) ? roster.roster : null, waivers, gallery: null },
    },
  )
  if (!often(0.1)) return report
  return narrowed(report, new Set(report.files.map(({ file }) => file).filter(() => often(0.5))))
}
