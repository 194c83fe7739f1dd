import { expect, test } from 'vitest'
import { DETAILED, FORMATS } from '../../src/commands/formats.ts'
import { formatted } from '../../src/commands/formatted.ts'
import { assembleReport } from '../../src/judge/assemble.ts'
import { EarlyOutcomes } from '../../src/judge/early.ts'
import type { Report } from '../../src/judge/report.ts'
import type { Standard } from '../../src/judge/standard.ts'
import { face, GOOD, GOOD_NAME, head, metadata, UNREAD } from '../rules/judging/cases.ts'
import { SPEC } from './sample.ts'

const STANDARD: Standard = {
  spec: {
    ...SPEC,
    settings: {
      ...SPEC.settings,
      'one-face': true,
      'metadata-forbidden': ['location'],
      'lens-glare': { max: 3 },
    },
  },
  roster: null,
  waivers: [],
  gallery: null,
}

const FILES = [
  GOOD,
  GOOD,
  { ...GOOD, ...face({ tiltDeg: 4 }) },
  { ...GOOD, ...head({ headroomPct: 20 }) },
  { ...GOOD, ...head({ confidence: 0.1, doubts: ['crown-implausible'] }) },
  { ...GOOD, ...metadata({ places: [{ item: 'coordinates', where: ['EXIF GPSLatitude'] }] }) },
  { ...GOOD, ...UNREAD },
].map((measured, i) => {
  const path = `web/${i}.jpg`
  return { name: { ...GOOD_NAME, path, deliverable: 'web' }, measured: { ...measured, file: path } }
})

function report(detailed: boolean, isEarly: boolean): Report {
  const names = FILES.map(({ name }) => name)
  const early = isEarly ? new EarlyOutcomes(names, STANDARD, true, detailed) : undefined
  for (const { measured } of FILES) early?.judge(measured)
  const tool = { name: 'portrait-gate', version: '0.0.0' }
  const left = { hidden: 0, sidecars: 0, links: 0, other: 0 }
  const run = { tool, left, strict: false, today: '2027-03-31', files: FILES, detailed }
  return assembleReport({ ...run, ...(early && { early }) }, STANDARD)
}

test.each([true, false])(
  'a brief report tells what passes without a word, and all else as a detailed one',
  (isEarly) => {
    const [brief, detailed] = [report(false, isEarly), report(true, isEarly)]
    const wordless = { measured: null, expected: null, reason: '' }
    const files = detailed.files.map((file) => ({
      ...file,
      outcomes: file.outcomes.map(({ figure, ...told }) =>
        told.verdict === 'pass' ? { ...told, ...wordless } : { ...told, ...(figure && { figure }) },
      ),
    }))
    expect(brief).toEqual({ ...detailed, files })
    const verdicts = new Set(brief.files.flatMap(({ outcomes }) => outcomes.map(({ verdict }) => verdict)))
    expect([...verdicts].sort()).toEqual(['fail', 'pass', 'skip', 'unsure'])
    expect(brief.files[0]?.outcomes[0]).toBe(brief.files[1]?.outcomes[0])
  },
)

test.each(FORMATS.filter((format) => !DETAILED.includes(format)))('%s does not tell them apart', (format) => {
  const [brief, detailed] = [report(false, true), report(true, true)].map((one) =>
    formatted(
      one,
      format,
      { columns: 80, color: false },
      { pictures: new Map(), at: new Date(0), name: 'report', all: true },
    ),
  )
  expect(brief).toEqual(detailed)
})
