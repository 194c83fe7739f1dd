import { expect, test } from 'vitest'
import { unplacedSentence } from '../../src/report/matrix-lines.ts'

const withUnplaced = (...unplaced: string[]) => unplacedSentence({ deliverables: [], rows: [], unplaced })

test('files in no row are counted', () => {
  expect(withUnplaced()).toBeNull()
  expect(withUnplaced('a.jpg')).toBe(
    "Not in this table: 1 file whose name doesn't give the person or the deliverable.",
  )
  expect(withUnplaced('a.jpg', 'b.jpg')).toBe(
    "Not in this table: 2 files whose names don't give the person or the deliverable.",
  )
})
