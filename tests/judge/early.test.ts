import { setImmediate } from 'node:timers/promises'
import { expect, test } from 'vitest'
import { assembleReport, type Run } from '../../src/judge/assemble.ts'
import { EarlyOutcomes } from '../../src/judge/early.ts'
import type { Standard } from '../../src/judge/standard.ts'
import { GOOD, GOOD_NAME } from '../rules/judging/cases.ts'
import { SPEC } from './sample.ts'

const PATHS = ['web/a.jpg', 'web/b.jpg', 'web/c.jpg', 'web/d.jpg']
const STANDARD: Standard = { spec: SPEC, roster: null, waivers: [], gallery: null }

function run(): Run {
  const files = PATHS.map((path, i) => ({
    name: { ...GOOD_NAME, path, deliverable: 'web' },
    measured: { ...GOOD, file: path, heightPx: (GOOD.heightPx ?? 0) + i },
  }))
  const left = { hidden: 0, sidecars: 0, links: 0, other: 0 }
  return {
    tool: { name: 'portrait-gate', version: '0.0.0' },
    strict: false,
    today: '2027-03-31',
    left,
    files,
  }
}

test('what is judged early is what is judged in the end, and what was not reached is judged then', async () => {
  const { files, ...rest } = run()
  const early = new EarlyOutcomes(
    files.map(({ name }) => name),
    STANDARD,
    true,
  )
  for (const { measured } of files.slice(0, 2)) early.take(measured)
  expect(early.finish().size).toBe(0)
  for (const { measured } of files.slice(0, 3)) early.take(measured)
  await setImmediate()
  await setImmediate()
  await setImmediate()
  early.take((files[3] as (typeof files)[number]).measured)
  const report = assembleReport({ ...rest, files, early }, STANDARD)
  expect(early.finish().size).toBeGreaterThan(0)
  expect(early.finish().size).toBeLessThan(4)
  expect(JSON.stringify(report)).toBe(JSON.stringify(assembleReport({ ...rest, files }, STANDARD)))
  expect(report.files.map(({ outcomes }) => outcomes.length).every((many) => many > 3)).toBe(true)
})

test('what waits to be judged keeps the thread from sleeping until a worker has something to tell', () => {
  const { files } = run()
  const early = new EarlyOutcomes(
    files.map(({ name }) => name),
    STANDARD,
    true,
  )
  for (const { measured } of files) early.take(measured)
  // Node lists what its loop may not sleep for.
  expect(process.getActiveResourcesInfo()).toContain('Immediate')
  early.finish()
})

test('a file that is to be renamed is judged with the name that it is to get', async () => {
  const naming = { text: '{family}.jpg', segments: [[{ field: 'family' }, { text: '.jpg' }]] }
  const spec = { ...SPEC, naming: { ...naming, fields: {} }, deliverables: {} }
  const standard = { ...STANDARD, spec }
  const name = { ...GOOD_NAME, path: 'Lund.JPG', pattern: naming.text, fields: { family: 'Lund' } }
  const wrong = {
    ...name,
    deliverable: null,
    problems: [{ kind: 'letter-case' as const, wanted: '.jpg', found: '.JPG' }],
  }
  const measured = { ...GOOD, file: wrong.path }
  const early = new EarlyOutcomes([wrong], standard, true)
  early.take(measured)
  await setImmediate()
  await setImmediate()
  const { files: _, ...rest } = run()
  const files = [{ name: wrong, measured }]
  const report = assembleReport({ ...rest, files, early }, standard)
  expect(early.finish().size).toBe(1)
  expect(report.files[0]?.outcomes[0]).toMatchObject({ rule: 'file-name', renames: [{ to: 'Lund.jpg' }] })
  expect(early.finish().get(wrong.path)?.[0]?.renames).toBeUndefined()
})

test('what no worker waits for is judged at once', () => {
  const { files } = run()
  const early = new EarlyOutcomes(
    files.map(({ name }) => name),
    STANDARD,
    true,
  )
  for (const { measured } of files.slice(1)) early.judge(measured)
  early.judge({ ...GOOD, file: 'unnamed.jpg' })
  expect([...early.finish().keys()]).toEqual(PATHS.slice(1))
})
