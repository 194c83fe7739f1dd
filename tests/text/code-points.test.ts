import { expect, test } from 'vitest'
import { byCodePoint } from '../../src/text/code-points.ts'
import { seeded } from '../random.ts'

test('astral characters come after the whole basic plane', () => {
  expect(['\u{1F600}', '\uFFFD', 'a', 'ab', 'B', ''].sort(byCodePoint)).toEqual([
    '',
    'B',
    'a',
    'ab',
    '\uFFFD',
    '\u{1F600}',
  ])
})

test('agrees with the order of UTF-8 bytes, which is that of code points (RFC 3629, section 1)', () => {
  const random = seeded(7)
  const letters = ['a', 'é', '~', '\uE000', '\uFFFD', '\u{10000}', '\u{10FFFF}', '中', '/']
  const word = () =>
    Array.from(
      { length: Math.floor(random() * 4) },
      () => letters[Math.floor(random() * letters.length)],
    ).join('')
  for (let n = 0; n < 5000; n++) {
    const [a, b] = [word(), word()]
    expect(Math.sign(byCodePoint(a, b))).toBe(Math.sign(Buffer.compare(Buffer.from(a), Buffer.from(b))))
  }
})
