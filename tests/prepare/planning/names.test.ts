import { describe, expect, test } from 'vitest'
import { loadSpec } from '../../../src/brand-spec/load.ts'
import { namesOf } from '../../../src/checking/sources.ts'
import { assembleReport } from '../../../src/judge/assemble.ts'
import { TOOL } from '../../../src/judge/tool.ts'
import { readRoster } from '../../../src/people/roster.ts'
import { planFiles } from '../../../src/prepare/planning/plan.ts'
import { ALL_RULES } from '../../../src/rules/delivery-index.ts'
import { GOOD, metadata } from '../../rules/judging/cases.ts'

const ROSTER = 'family,given,staff-id\nLund,Bjørn,00990\nBergström,Åsa,01207\nИванова,Нина,02001\n'

function standardFor(transliterate: string) {
  const loaded = loadSpec(
    `brand: B\nversion: 1\nnaming: { pattern: "{family}-{given}_{staff-id}.jpg"${transliterate} }\nmasters: { naming: "{staff-id}.jpg" }\nmetadata-required: { person-shown: "{given} {family}" }\nprepare: { metadata: { person-shown: "{given} {family}" } }\none-face: false\n`,
    'brand.yaml',
    ALL_RULES,
  )
  if ('problems' in loaded) throw new Error(JSON.stringify(loaded.problems))
  const { spec } = loaded
  const read = readRoster({ file: 'staff.csv', text: ROSTER }, spec.naming)
  if ('problems' in read) throw new Error(JSON.stringify(read.problems))
  return { spec, roster: read.roster, waivers: [], gallery: null }
}

function planned(transliterate: string) {
  const { spec, roster } = standardFor(transliterate)
  const masters = ['00990', '01207', '02001'].map((id) => ({
    found: { path: `/masters/${id}.jpg`, file: `${id}.jpg` },
    measured: { ...GOOD, file: `${id}.jpg`, sha256: id },
  }))
  return planFiles(masters, { spec, roster, medians: () => ({}) })
}

describe.each([
  ['', ['Lund-Bjørn_00990.jpg', 'Bergström-Åsa_01207.jpg', 'Иванова-Нина_02001.jpg']],
  [', transliterate: base', ['Lund-Bjorn_00990.jpg', 'Bergstrom-Asa_01207.jpg']],
  [', transliterate: passport', ['Lund-Bjoern_00990.jpg', 'Bergstroem-Aasa_01207.jpg']],
])('naming: { ...%s }', (transliterate, names) => {
  const { files, unmade } = planned(transliterate)

  test('files are named so, and their metadata keeps the names as they are', () => {
    expect(files.map(({ file }) => file)).toEqual(names)
    expect(files[0]?.labels.fields['person-shown']).toEqual(['Bjørn Lund'])
  })

  test('check finds such names right, and whose portraits they are', () => {
    const standard = standardFor(transliterate)
    const found = files.map(({ file }) => ({ path: `/delivery/${file}`, file }))
    const nameOf = namesOf(found, standard)
    const report = assembleReport(
      {
        ...{
          tool: TOOL,
          strict: false,
          left: { hidden: 0, sidecars: 0, links: 0, other: 0 },
          today: '2027-01-01',
        },
        files: files.map(({ file, labels }) => ({
          name: nameOf(file),
          measured: {
            ...GOOD,
            ...{ file, sha256: file },
            ...metadata({ personShown: [...(labels.fields['person-shown'] ?? [])] }),
          },
        })),
      },
      standard,
    )
    expect(report.files.map(({ person }) => person)).toEqual(
      ['Bergström Åsa 01207', 'Lund Bjørn 00990', 'Иванова Нина 02001'].slice(0, files.length),
    )
    const judged = report.files.flatMap(({ outcomes }) =>
      outcomes.filter(({ rule }) => rule === 'file-name' || rule === 'metadata-required'),
    )
    expect(judged.map(({ verdict }) => verdict)).toEqual(judged.map(() => 'pass'))
    expect(judged).toHaveLength(2 * files.length)
  })

  test('of a name in another script the spelling is asked for', () => {
    expect(unmade.map(({ reason }) => reason)).toEqual(
      transliterate === ''
        ? []
        : [
            'No spelling of "Иванова" in the letters A to Z is known, and names are written so. Give it in the roster.',
          ],
    )
  })
})

test('a file that is named as the roster spells it fails, is known, and is to be renamed', () => {
  const standard = standardFor(', transliterate: passport')
  const file = 'Lund-Bjørn_00990.jpg'
  const nameOf = namesOf([{ path: `/delivery/${file}`, file }], standard)
  const { files } = assembleReport(
    {
      ...{
        tool: TOOL,
        strict: false,
        left: { hidden: 0, sidecars: 0, links: 0, other: 0 },
        today: '2027-01-01',
      },
      files: [{ name: nameOf(file), measured: { ...GOOD, file } }],
    },
    standard,
  )
  expect(files[0]?.person).toBe('Lund Bjørn 00990')
  expect(files[0]?.outcomes.find(({ rule }) => rule === 'file-name')).toMatchObject({
    verdict: 'fail',
    reason: 'The field given of the name must be in the letters A to Z, without accents; found "Bjørn".',
    renames: [{ from: file, to: 'Lund-Bjoern_00990.jpg' }],
  })
})

test('two people whom such names would not tell apart are a mistake of the roster', () => {
  const { spec } = standardFor(', transliterate: passport')
  const text = 'family,given,staff-id\nMüller,Jörg,00990\nMueller,Joerg,00990\n'
  expect(readRoster({ file: 'staff.csv', text }, spec.naming)).toEqual({
    problems: [{ line: 3, message: '"Mueller Joerg 00990" is already on line 2; remove one of the rows.' }],
  })
})
