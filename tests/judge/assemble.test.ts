import { expect, test } from 'vitest'
import type { Waiver } from '../../src/waivers/waiver.ts'
import { COMPLETE, STAFF } from '../rules/delivery/delivery-cases.ts'
import { wholeReport } from './whole.ts'

const [LUND = '', NAIR = ''] = COMPLETE
const PHAM = 'print/Pham-Linh_17001.jpg'
const TWINS: Waiver = {
  line: 1,
  rule: 'duplicate-picture',
  files: [LUND, NAIR],
  people: [],
  reason: 'They are twins and wished it so.',
  approvedBy: 'Ingrid Vale',
  until: '2027-03-31',
}
const duplicates = (files: readonly string[], waiver: Waiver) => {
  const report = wholeReport(files, [waiver], {}, STAFF, { 'duplicate-picture': 'none' })
  return report.delivery.outcomes.filter(
    ({ rule, verdict }) => rule === 'duplicate-picture' && verdict === 'fail',
  )
}

test('a name that file-name fails is left to it, unless it only warns', () => {
  const stranger = 'print/portrait 7.jpg'
  const onName = (advisory: readonly string[]) => {
    const { delivery } = wholeReport([...COMPLETE, stranger], [], {}, STAFF, {}, advisory)
    return delivery.outcomes.filter(({ rule, files }) => rule === 'roster' && files.includes(stranger))
  }
  expect(onName([])).toMatchObject([{ verdict: 'skip' }])
  expect(onName(['file-name'])).toMatchObject([{ verdict: 'unsure' }])
})

test.each([
  ['the files of two people', TWINS],
  ['two people', { ...TWINS, files: [], people: [{ family: 'Lund' }, { family: 'Nair' }] }],
])('a waiver for %s lets no copy of a third pass', (_, waiver) => {
  expect(duplicates([LUND, NAIR], waiver)).toMatchObject([{ files: [LUND, NAIR], waiver: {} }])
  const [finding, ...others] = duplicates([LUND, NAIR, PHAM], waiver)
  expect(finding).toMatchObject({ files: [LUND, NAIR, PHAM] })
  expect(finding?.waiver).toBeUndefined()
  expect(others).toEqual([])
})
