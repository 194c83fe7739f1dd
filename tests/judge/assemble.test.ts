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
