import { mkdtemp, readFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { beforeAll, describe, expect, test } from 'vitest'
import type { Report } from '../../../src/judge/report.ts'
import { json } from '../../../src/report/json.ts'
import { renames } from '../../../src/report/renames.ts'
import { FINDINGS } from '../../report/verdicts/findings.ts'
import { PART_READERS, READERS, rendered } from '../../report/verdicts/readers.ts'
import { CASES } from './cases.ts'
import { plant } from './faults.ts'
import { applyFixes, type Done } from './fixing.ts'
import { rosterOf } from './house.ts'
import { judged, written } from './judged.ts'
import { ROSTER_FORMS } from './roster-forms.ts'
import { STAFF } from './staff.ts'
import { Delivery } from './studio.ts'

/** Rounds of checking and fixing: a crop shows what the next is to be, and a new file what it misses. */
const MOST_ROUNDS = 3

const studio = new Delivery()
const roster = rosterOf(STAFF)
let folder = ''
let report: Report
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'planted-'))
  await plant(studio, STAFF)
  await written(join(folder, 'delivery'), studio.files)
  report = await judged(folder, { roster })
})

describe('a delivery with a fault of each kind', () => {
  test.each(CASES)('$fault: $rule', ({ rule, subjects, called, measured, fix }) => {
    for (const [format, read] of Object.entries(FINDINGS)) {
      const rows = read(report).filter((row) => row.rule === rule)
      for (const subject of subjects) {
        const about = rows.filter(({ text }) =>
          [subject, called ?? subject].some((one) => text.includes(one)),
        )
        const fixes = about.map((row) => row.fix)
        expect(fixes, `${format}: ${subject}`).toContainEqual(expect.stringContaining(fix))
        const found = about.flatMap((row) => (row.measured === undefined ? [] : [row.measured]))
        expect(found.length === 0 || found.includes(measured), `${format}: ${found}`).toBe(true)
      }
    }
  })

  test('every file with a fault fails in every format, and no other does', () => {
    const failing = new Set(CASES.flatMap(({ subjects }) => subjects))
    const texts = rendered(report, true)
    for (const [format, read] of Object.entries({ ...READERS, ...PART_READERS })) {
      const verdicts = [...read(texts)].filter(([file]) => report.files.some((one) => one.file === file))
      expect(verdicts.length, format).toBeGreaterThan(0)
      // A place that two files claim is told as double, whichever of them is right.
      const wrong = verdicts.filter(
        ([file, verdict]) =>
          verdict !== 'double' && failing.has(file) !== /^(fails?|perhaps|maybe\?)$/i.test(verdict),
      )
      expect(wrong, format).toEqual([])
    }
  })

  test.each(ROSTER_FORMS)('the people are told alike from a roster with %s', async (_, made) => {
    const told = ({ delivery }: Report) =>
      delivery.outcomes
        .filter(({ rule }) => rule === 'roster' || rule === 'variants')
        .map(({ people, files, verdict, measured, fix }) => ({ people, files, verdict, measured, fix }))
    expect(told(await judged(folder, made(roster)))).toEqual(told(report))
  })
})

test('doing what the report says makes it pass', async () => {
  const total: Done[] = []
  const wanted = new Set([...studio.supply.keys(), ...studio.known.keys()])
  let now = report
  while (now.verdict !== 'pass' && total.length < MOST_ROUNDS) {
    const read: Report = JSON.parse(json(now))
    total.push(await applyFixes(read, renames(now), join(folder, 'delivery'), studio))
    now = await judged(folder, { roster })
  }
  const open = [
    ...now.files.flatMap(({ file, outcomes }) => outcomes.map((one) => ({ ...one, file }))),
    ...now.delivery.outcomes,
  ]
  expect(open.filter(({ verdict }) => verdict === 'fail' || verdict === 'unsure')).toEqual([])
  expect(now.verdict).toBe('pass')
  expect(now.totals.files).toBe(2 * STAFF.length)
  // Somebody was asked for each file that no computer can make, and for no other.
  expect(new Set(total.flatMap(({ supplied }) => supplied))).toEqual(wanted)
  expect([...studio.supply.keys(), ...studio.known.keys()]).toEqual([])
  // What had no fault was not touched.
  const failing = new Set(CASES.flatMap(({ subjects }) => subjects))
  const kept = [...studio.files].filter(([path]) => !failing.has(path))
  const same = await Promise.all(
    kept.map(async ([path, bytes]) => bytes.equals(await readFile(join(folder, 'delivery', path)))),
  )
  expect(kept.filter((_, i) => !same[i]).map(([path]) => path)).toEqual([])
})
