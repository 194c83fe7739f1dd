import { expect, test } from 'vitest'
import { paragraphs } from '../../src/report/paragraphs.ts'

test.each<[what: string, line: string, shown: string]>([
  ['a line that fits', 'Sealed: o.zip', 'Sealed: o.zip\n'],
  ['an empty line', '', '\n'],
  [
    'a sentence',
    'Nothing was sealed, since the delivery does not pass.',
    'Nothing was sealed, since the delivery\ndoes not pass.\n',
  ],
  [
    'behind a word',
    'fail    Nair Priya 15388: not shown. Publish the approved one.',
    'fail    Nair Priya 15388: not shown.\n        Publish the approved one.\n',
  ],
  [
    'behind two words',
    'held back  print/Lund.jpg  has too few pixels',
    'held back  print/Lund.jpg  has too few\n           pixels\n',
  ],
  [
    'indented',
    '     The reason of the studio: a cap that she wears',
    '     The reason of the studio: a cap\n     that she wears\n',
  ],
])('%s', (_, line, shown) => {
  expect(paragraphs([line], 40)).toBe(shown)
})

test('what a stranger wrote moves no cursor and breaks no line', () => {
  expect(paragraphs(['by \u001b[2JA\nB'], 80)).toBe('by <U+001B>[2JA<U+000A>B\n')
})

test('a terminal that does not tell its width is as wide as usual', () => {
  const long = 'word '.repeat(30).trim()
  expect(paragraphs([long], undefined)).toBe(paragraphs([long], 80))
})
