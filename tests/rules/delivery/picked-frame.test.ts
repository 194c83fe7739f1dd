import { expect, test } from 'vitest'
import type { RosterEntry } from '../../../src/people/roster-entry.ts'
import type { Delivery } from '../../../src/rules/contract/delivery-rule.ts'
import { pickedFrame } from '../../../src/rules/delivery/picked-frame.ts'
import { GOOD_METADATA } from '../judging/cases.ts'
import { deliveryOf, portrait } from './deliveries.ts'

/** Portraits of Lund with the original names that their metadata tell, and the pick on the roster. */
function delivery(pick: string, names: readonly (string | null)[], columns = ['family', 'pick']): Delivery {
  const files = names.map((rawFileName, i) => {
    const origin = { ...GOOD_METADATA.origin, rawFileName, preservedFileName: null, imageNumber: null }
    return portrait('Lund', ['print', 'web'][i] ?? 'other', {
      rest: { metadata: { ...GOOD_METADATA, origin } },
    })
  })
  const entry: RosterEntry = {
    line: 2,
    values: { family: 'Lund', pick },
    absent: null,
    left: null,
    consentUntil: null,
  }
  return {
    ...deliveryOf(files),
    people: [{ label: 'Lund', fields: { family: 'Lund' }, entry }],
    roster: { file: 'staff.csv', columns, key: ['family'], entries: [entry] },
  }
}

test.each([
  ['both of the picked frame', '4711', ['OLV_4711.CR3', 'OLV_4711.CR3'], 'pass'],
  ['one of another frame', '4711', ['OLV_4711.CR3', 'OLV_4712.CR3'], 'fail'],
  ['one that does not tell', '4711', ['OLV_4711.CR3', null], 'unsure'],
  ['nothing picked', '', ['OLV_4711.CR3'], 'skip'],
] as const)('%s', (_, pick, names, verdict) => {
  const [finding, ...more] = pickedFrame.judge(delivery(pick, names), 'roster')
  expect(finding?.verdict).toBe(verdict)
  expect(more).toEqual([])
})

test('the wrong frame is told with the pick and the fix', () => {
  const [finding] = pickedFrame.judge(delivery('4711', ['OLV_4712.CR3']), 'roster')
  expect(finding?.reason).toBe('"print/Lund.jpg" is from frame "OLV_4712.CR3"; the pick is "4711".')
  expect(finding?.fix).toContain('Export again from "4711"')
})

test('it runs unasked when the roster has picks, and says so when it has none', () => {
  expect(pickedFrame.unasked(delivery('1', []))).toBe('roster')
  expect(pickedFrame.unasked(delivery('1', [], ['family']))).toBeNull()
  expect(pickedFrame.judge(delivery('1', [], ['family']), 'roster')[0]?.verdict).toBe('skip')
})
