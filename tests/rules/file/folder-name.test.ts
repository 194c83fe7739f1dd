import { describe, expect, test } from 'vitest'
import { renames } from '../../../src/report/renames.ts'
import { table } from '../../../src/report/table.ts'
import { wholeReport } from '../../judge/whole.ts'
import { COMPLETE } from '../delivery/delivery-cases.ts'

const inFolder = (folder: string) => COMPLETE.map((path) => path.replace('web/', `${folder}/`))
const report = (paths: readonly string[], staff?: string) => wholeReport(paths, [], {}, staff)
const misses = (paths: readonly string[]) =>
  report(paths).delivery.outcomes.filter(({ verdict }) => verdict === 'fail' || verdict === 'unsure')

describe('a folder with a wrong name is one finding over its files', () => {
  test.each([
    ['misspelled', 'webb', 'The folder "webb" is not named after a deliverable of the spec.'],
    ['with a capital', 'Web', 'In the name of the folder "Web", "Web" should be "web": upper and lower case'],
    ['below others', 'late/webb', 'The folder "late/webb" is not named after a deliverable of the spec.'],
  ])('%s', (_, folder, words) => {
    const paths = inFolder(folder)
    const found = report(paths)
    const files = paths.filter((path) => path.startsWith(folder))
    expect(misses(paths)).toEqual([
      expect.objectContaining({
        ...{ rule: 'file-name', verdict: 'fail', people: [], files, measured: folder },
        reason: expect.stringMatching(/ 2 files lie in it\.$/),
        fix: `Rename the folder to "${folder.replace(/webb|Web/, 'web')}".`,
        renames: files.map((from) => ({ from, to: from.replace(folder, folder.replace(/webb|Web/, 'web')) })),
      }),
    ])
    expect(misses(paths)[0]?.reason).toContain(words)
    for (const file of found.files) {
      const isInside = files.includes(file.file)
      expect(file.verdict).toBe(isInside ? 'fail' : 'pass')
      expect(file.outcomes.find(({ rule }) => rule === 'file-name')?.verdict).toBe(isInside ? 'skip' : 'pass')
    }
    expect(table(found, { columns: 1000, color: false }).split('fail    file-name')).toHaveLength(2)
    expect(renames(found).match(/^move '/gm)).toHaveLength(2)
  })

  test('that is like no deliverable; who lacks what is not told again', () => {
    expect(misses(inFolder('export 3'))).toEqual([
      expect.objectContaining({
        rule: 'file-name',
        reason: 'The folder "export 3" is not named after a deliverable of the spec. 2 files lie in it.',
        fix: 'Give the folder the name of the deliverable that its files are for.',
      }),
    ])
  })

  test('whose right name is there already: its files are moved', () => {
    const paths = [...COMPLETE.slice(0, 3), 'webb/Nair-Priya_15388.jpg']
    expect(misses(paths)).toEqual([expect.objectContaining({ fix: 'Move its files into "web".' })])
  })

  test('that holds what is there already: no double is told beside it', () => {
    const found = misses([...COMPLETE, 'webb/Nair-Priya_15388.jpg'])
    expect(found).toEqual([
      expect.objectContaining({
        rule: 'file-name',
        fix: expect.stringMatching(/(identical to|claims too).*/),
      }),
    ])
  })

  test('and a file in it with a wrong name of its own: that is told at the file, with the whole path', () => {
    const paths = [...inFolder('webb').slice(0, 3), 'webb/Nair-Priya_15388.JPG']
    const file = report(paths).files.find((one) => one.file.endsWith('.JPG'))
    expect(file?.outcomes.find(({ rule }) => rule === 'file-name')).toMatchObject({
      verdict: 'fail',
      fix: 'Rename it to "web/Nair-Priya_15388.jpg".',
    })
  })

  test('that Windows refuses, and that is decomposed', () => {
    const paths = COMPLETE.map((path) => `aux/Zoe\u0308/${path}`)
    expect(misses(paths).map(({ measured, files, fix }) => [measured, files.length, fix])).toEqual([
      ['aux', 4, 'Rename the folder so that every system can store it.'],
      [
        'aux/Zo\u00eb',
        4,
        'Rename the folder to "aux/Zo\u00eb" in NFC: retype the name instead of copying it.',
      ],
    ])
  })
})

test('names that nobody judges are not told, nor their folders', () => {
  const settings = { 'file-name': false }
  const found = wholeReport(inFolder('webb'), [], {}, undefined, settings)
  expect(
    found.delivery.outcomes.some(({ rule, verdict }) => rule === 'file-name' && verdict === 'fail'),
  ).toBe(false)
})
