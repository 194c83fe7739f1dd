import { expect, test } from 'vitest'
import { variants } from '../../../src/rules/delivery/variants.ts'
import { COMPLETE, deliveryOf, linesOf } from './delivery-cases.ts'

const judge = (...args: Parameters<typeof deliveryOf>) => linesOf(variants, deliveryOf(...args), 'all')
const without = (...gone: string[]) => COMPLETE.filter((path) => !gone.includes(path))

test('it runs unasked when there is a roster', () => {
  const known = { deliverables: [], gallery: null }
  expect(variants.unasked({ ...known, roster: deliveryOf(COMPLETE).roster })).toBe('all')
  expect(variants.unasked({ ...known, roster: null })).toBeNull()
})

test.each([['with'], ['without']])('all is there, %s a roster', (which) => {
  const lines = which === 'with' ? judge(COMPLETE) : judge(COMPLETE, null)
  expect(lines).toEqual(['pass  []: Each person with portraits (2) has print and web once.'])
})

test('a deliverable is missing', () => {
  expect(judge(without('web/Lund-Bjørn_00990.jpg'))).toEqual([
    'fail Lund Bjørn 00990 []: "Lund Bjørn 00990" has no portrait for web. Export web from the same frame as the other file.',
  ])
})

test('who is missing as a whole, or not on the roster, is told by roster', () => {
  const paths = without('web/Lund-Bjørn_00990.jpg', 'print/Lund-Bjørn_00990.jpg')
  expect(judge([...paths, 'print/Okoro-Emeka_16001.jpg'])[0]).toMatch(/^pass/)
  expect(judge([...paths, 'print/Okoro-Emeka_16001.jpg'], null)[0]).toMatch(/^fail Okoro Emeka 16001/)
})

test('who has left needs nothing any more', () => {
  const staff = 'family,given,staff-id,left\nLund,Bjørn,00990,2026-03-31\nNair,Priya,15388,\n'
  const paths = without('web/Lund-Bjørn_00990.jpg')
  expect(judge(paths, staff, { today: '2026-04-01' })[0]).toMatch(/^pass/)
  expect(judge(paths, staff, { today: '2026-03-31' })[0]).toMatch(/^fail Lund Bjørn 00990/)
})

test('a deliverable is there twice', () => {
  expect(judge([...COMPLETE, 'late/web/Lund-Bjørn_00990.jpg'])).toEqual([
    'fail Lund Bjørn 00990 [web/Lund-Bjørn_00990.jpg, late/web/Lund-Bjørn_00990.jpg]: "Lund Bjørn 00990" has 2 portraits for web: "web/Lund-Bjørn_00990.jpg" and "late/web/Lund-Bjørn_00990.jpg". They are identical: keep "web/Lund-Bjørn_00990.jpg" and delete "late/web/Lund-Bjørn_00990.jpg".',
  ])
})

test.each([
  [
    'identical',
    'a',
    'They are identical: keep "web/Lund-Bjørn_00990.jpg" and delete "late/web/Lund-Bjørn_00990.jpg".',
  ],
  ['of other content', 'b', 'Remove all but the approved one.'],
])('of two files that are %s', (_, other, fix) => {
  const { files, ...rest } = deliveryOf(['late/web/Lund-Bjørn_00990.jpg', ...COMPLETE])
  const hashed = files.map((file) => {
    const sha256 = (file.name.path.startsWith('late/') ? other : 'a').repeat(64)
    return { ...file, measured: { ...file.measured, sha256 } }
  })
  expect(linesOf(variants, { ...rest, files: hashed }, 'all').join()).toContain(fix)
})

test('copies of one file are told so that a script can delete them', () => {
  const { files, ...rest } = deliveryOf(['late/web/Lund-Bjørn_00990.jpg', ...COMPLETE])
  const alike = files.map((file) => ({ ...file, measured: { ...file.measured, sha256: 'a'.repeat(64) } }))
  expect(variants.judge({ ...rest, files: alike }, 'all').flatMap(({ renames = [] }) => renames)).toEqual([
    { from: 'late/web/Lund-Bjørn_00990.jpg', sameAs: 'web/Lund-Bjørn_00990.jpg', by: 'bytes' },
  ])
})

test('a misspelled name counts for whom it means', () => {
  expect(judge([...without('web/Lund-Bjørn_00990.jpg'), 'web/Lunt-Bjørn_00990.jpg'])[0]).toMatch(/^pass/)
})

test('without deliverables each person has one portrait', () => {
  const one = (paths: string[]) => judge(paths, null, { deliverables: [] })
  expect(one(['print/Lund-Bjørn_00990.jpg'])[0]).toMatch(/^pass.*has a portrait once/)
  expect(one([...COMPLETE])).toHaveLength(2)
})

test('a file that tells no deliverable is never counted as one', () => {
  const { files, ...rest } = deliveryOf(COMPLETE)
  const unknown = files.map((file) => ({ ...file, name: { ...file.name, deliverable: null } }))
  const lines = linesOf(variants, { ...rest, files: unknown }, 'all')
  expect(lines).toHaveLength(6)
  expect(lines.every((line) => line.startsWith('unsure'))).toBe(true)
})

test('a delivery of which nobody is known does not pass', () => {
  expect(judge(['print/scan.jpg'], null)).toEqual([expect.stringMatching(/^unsure/)])
})
