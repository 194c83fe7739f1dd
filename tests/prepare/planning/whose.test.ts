import { expect, test } from 'vitest'
import { loadSpec } from '../../../src/brand-spec/load.ts'
import { type Roster, readRoster } from '../../../src/people/roster.ts'
import { type MeasuredMaster, whoseAre } from '../../../src/prepare/planning/whose.ts'
import { hashOf } from '../../../src/prepare/work.ts'
import { ALL_RULES } from '../../../src/rules/delivery-index.ts'
import { GOOD } from '../../rules/judging/cases.ts'

function specWith(masters: string) {
  const loaded = loadSpec(
    `brand: B\nversion: 1\nnaming:\n  pattern: "{deliverable}/{family}-{given}_{staff-id}.jpg"\n  fields: { staff-id: { digits: 5 } }\ndeliverables: { web: , print: }\n${masters}`,
    'brand.yaml',
    ALL_RULES,
  )
  if ('problems' in loaded) throw new Error(JSON.stringify(loaded.problems))
  return loaded.spec
}
const SPEC = specWith('masters: { naming: "{staff-id}.tif" }\n')

function rosterOf(text: string): Roster {
  const read = readRoster({ file: 'staff.csv', text }, SPEC.naming)
  if ('problems' in read) throw new Error(JSON.stringify(read.problems))
  return read.roster
}
const ROSTER = rosterOf(
  'family,given,staff-id,pick\nAdeyemi,Folasade,00418,IMG_0007\nLund,Bjørn,00990,\nNair,Priya,15388,IMG_0009\n',
)

const master = (file: string): MeasuredMaster => ({
  found: { path: `/masters/${file}`, file },
  measured: { ...GOOD, file, sha256: hashOf(Buffer.from(file)) },
})
const whose = (file: string, roster: Roster | null = ROSTER, spec = SPEC) =>
  whoseAre([master(file)], spec, roster)[0]

test('by its name, completed by the roster', () => {
  expect(whose('00418.tif')).toEqual({
    fields: { 'staff-id': '00418', family: 'Adeyemi', given: 'Folasade', pick: 'IMG_0007' },
    deliverable: null,
    pick: 'IMG_0007',
  })
  expect(whose('00418.tif', null)).toEqual({ fields: { 'staff-id': '00418' }, deliverable: null, pick: null })
})

test('by the pick that names it, whatever its extension and letter case', () => {
  expect(whose('img_0009.jpg')).toMatchObject({ fields: { family: 'Nair' } })
})

test('a delivered file is its own master, for its deliverable alone', () => {
  expect(whose('web/Lund-Bjørn_00990.jpg')).toMatchObject({ fields: { family: 'Lund' }, deliverable: 'web' })
})

test.each([
  ['99999.tif', 'Nobody on the roster has staff-id "99999". Correct the name of the file or the roster.'],
  [
    'final.tif',
    'Who is in "final.tif"? Its name does not read "{staff-id}.tif" and no pick of the roster names it. Rename it.',
  ],
])('%s is a question', (file, question) => {
  expect(whose(file)).toEqual({ question })
})

test('two masters of one person are a question each', () => {
  const [first, second] = whoseAre([master('00418.tif'), master('00418.png')], SPEC, ROSTER)
  expect(first).toEqual({
    question: 'It shows the same person as "00418.png". Leave only the one that is to be used.',
  })
  expect(second).toEqual({
    question: 'It shows the same person as "00418.tif". Leave only the one that is to be used.',
  })
})

test('of two copies of one master, that in fewer folders is used', () => {
  const copy = (file: string) => ({ ...master(file), measured: { ...GOOD, file, sha256: 'ab' } })
  const [first, second] = whoseAre([copy('late/00418.tif'), copy('00418.tif')], SPEC, ROSTER)
  expect(first).toEqual({ question: 'It is a copy of "00418.tif", byte for byte, which is used. Remove it.' })
  expect(second).toMatchObject({ fields: { family: 'Adeyemi' } })
})

test('of two copies of one file, that whose name is no copy is used', () => {
  const name = 'Adeyemi-Folasade_00418'
  const copy = (file: string) => ({ ...master(file), measured: { ...GOOD, file, sha256: 'ab' } })
  const [first, second] = whoseAre([copy(`print/${name} (1).jpg`), copy(`print/${name}.jpg`)], SPEC, ROSTER)
  expect(first).toMatchObject({
    question: `It is a copy of "print/${name}.jpg", byte for byte, which is used. Remove it.`,
  })
  expect(second).toMatchObject({ fields: { family: 'Adeyemi' } })
})

test('a spec that does not say how masters are named', () => {
  expect(whose('x.tif', null, specWith(''))).toEqual({
    question:
      'Who is in "x.tif"? Write into the spec how masters are named, such as masters: { naming: "{staff-id}.tif" }, or give the roster a column pick.',
  })
})
