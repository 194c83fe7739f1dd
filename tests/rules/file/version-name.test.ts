import { describe, expect, test } from 'vitest'
import type { Spec } from '../../../src/brand-spec/spec.ts'
import { readNames } from '../../../src/delivery/identify.ts'
import { assembleReport } from '../../../src/judge/assemble.ts'
import type { Report } from '../../../src/judge/report.ts'
import { parsePattern } from '../../../src/naming/naming.ts'
import { SPEC } from '../../judge/sample.ts'
import { GOOD } from '../judging/cases.ts'

/** A report on a delivery without a roster, judged as a whole. */
function report(paths: readonly string[], text = '{deliverable}/{family}-{given}.jpg'): Report {
  const parsed = parsePattern(text, {}, ['print', 'web'])
  if ('problems' in parsed) throw new Error('The pattern is sound.')
  const spec: Spec = {
    ...SPEC,
    naming: parsed.pattern,
    settings: { variants: 'all', 'duplicate-picture': 'none', 'same-frame': 'all' },
    deliverables: { print: {}, web: {} },
    advisory: [],
  }
  const found = paths.map((file) => ({ file, path: `/delivery/${file}` }))
  const names = readNames(found, parsed.pattern, ['print', 'web'])
  const files = names.map((name, index) => ({
    name,
    measured: { ...GOOD, file: name.path, sha256: String(index).padStart(64, '0') },
  }))
  const left = { hidden: 0, sidecars: 0, links: 0, other: 0 }
  const tool = { name: 'portrait-gate', version: '0.0.0' }
  const run = { tool, strict: false, today: '2026-11-25', left, files }
  return assembleReport(run, { spec, roster: null, waivers: [], gallery: null })
}

const people = (one: Report) => one.delivery.matrix?.rows.map(({ person }) => person)
const failed = ({ files, delivery }: Report) =>
  [...files.flatMap(({ outcomes }) => outcomes), ...delivery.outcomes].filter(
    ({ verdict }) => verdict === 'fail',
  )

describe('without a roster, a version after one name of several', () => {
  test('is one finding with the exact name, and no person of its own', () => {
    const one = report(['print/Lund-Bjørn.jpg', 'web/Lund-Bjørn_final.jpg'])
    expect(people(one)).toEqual(['Lund Bjørn'])
    expect(failed(one)).toEqual([
      expect.objectContaining({
        rule: 'file-name',
        reason:
          '"Bjørn_final" in the name ends in a version, which the other files of the same person don\'t have.',
        fix: 'Rename it to "web/Lund-Bjørn.jpg".',
      }),
    ])
  })

  test('whose place is taken is a file too many, of one person', () => {
    const one = report(['print/Lund-Bjørn.jpg', 'web/Lund-Bjørn.jpg', 'web/Lund-Bjørn_final.jpg'])
    expect(people(one)).toEqual(['Lund Bjørn'])
  })

  test('that is a number may tell two people apart where the place is taken, and is a version where it is free', () => {
    expect(people(report(['print/Kim-Min.jpg', 'web/Kim-Min_2.jpg']))).toEqual(['Kim Min'])
    const both = ['print', 'web'].flatMap((folder) => [`${folder}/Kim-Min.jpg`, `${folder}/Kim-Min_2.jpg`])
    expect(people(report(both))).toEqual(['Kim Min', 'Kim Min_2'])
    expect(failed(report(both))).toEqual([])
  })

  test('that all files of somebody have is their name', () => {
    const one = report([
      'print/Lund-New.jpg',
      'web/Lund-New.jpg',
      'print/Park-Jo_web.jpg',
      'web/Park-Jo_web.jpg',
    ])
    expect(people(one)).toEqual(['Lund New', 'Park Jo_web'])
    expect(failed(one)).toEqual([])
  })
})
