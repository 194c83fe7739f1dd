import { expect, test } from 'vitest'
import { copyMark } from '../../src/naming/copy-mark.ts'

// Finder, File Explorer and browsers write them so; from memory.
test.each([
  ['Abara-Ngozi copy', 'Abara-Ngozi', ' copy'],
  ['Abara-Ngozi copy 2', 'Abara-Ngozi', ' copy 2'],
  ['Abara-Ngozi - Copy', 'Abara-Ngozi', ' - Copy'],
  ['Abara-Ngozi - Copy (2)', 'Abara-Ngozi', ' - Copy (2)'],
  ['Abara-Ngozi - Kopie', 'Abara-Ngozi', ' - Kopie'],
  ['Abara-Ngozi_copy', 'Abara-Ngozi', '_copy'],
  ['Abara-Ngozi (1)', 'Abara-Ngozi', ' (1)'],
  ['Abara-Ngozi(12)', 'Abara-Ngozi', '(12)'],
  ['Abara-Ngozi (copy)', 'Abara-Ngozi', ' (copy)'],
  ['Abara-Ngozi copy (1)', 'Abara-Ngozi', ' copy (1)'],
  ['Abara-Ngozi (1) copy', 'Abara-Ngozi', ' (1) copy'],
])('%s is a copy', (stem, name, mark) => {
  expect(copyMark(stem)).toEqual({ name, mark })
})

test.each(['Abara-Ngozi', 'Abara-Scopy', 'copy', '(1)', 'Abara (2024)', 'Abara-Ngozi_00123', 'copy Abara'])(
  '%s is none',
  (stem) => {
    expect(copyMark(stem)).toBeNull()
  },
)

test('hostile names take no time to speak of', () => {
  const hostile = `${' (1)'.repeat(60)}${' '.repeat(60)}x`
  expect(copyMark(hostile)).toBeNull()
})
