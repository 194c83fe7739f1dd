import { expect, test } from 'vitest'
import { quote } from '../../src/text/quote.ts'

test.each([
  ['Zoë', '"Zoë"'],
  ['\u001b[31m', '"\\u{1B}[31m"'],
  ['a\nb', '"a\\u{A}b"'],
  ['\u202e', '"\\u{202E}"'],
  ['\u2028', '"\\u{2028}"'],
  ['\ud800', '"\\u{D800}"'],
  ['\u{1F600}', '"\u{1F600}"'],
  ['x'.repeat(60), `"${'x'.repeat(60)}"`],
  ['x'.repeat(61), `"${'x'.repeat(60)}…"`],
  ['\u{1F600}'.repeat(61), `"${'\u{1F600}'.repeat(60)}…"`],
])('%j: %s', (text, quoted) => {
  expect(quote(text)).toBe(quoted)
})
