import { expect, test } from 'vitest'
import { wishOf } from '../../src/desk/wish.ts'

test.each([
  { do: 'look', folder: null },
  { do: 'style', spec: 'brand.yaml' },
  { do: 'answer', delivery: 'a', question: 0, agreed: false },
  { do: 'sign', delivery: 'a', by: 'Ingrid Vale', note: '', decision: 'returned' },
  { do: 'end' },
])('%j is a wish', (wish) => expect(wishOf(wish)).toEqual(wish))

test.each([
  null,
  'end',
  {},
  { do: 'toString' },
  { do: 'style' },
  { do: 'look', folder: 3 },
  { do: 'answer', delivery: 'a', question: 0.5, agreed: false },
  { do: 'answer', delivery: 'a', question: 0, agreed: 'yes' },
  { do: 'sign', delivery: 'a', by: 'Ingrid Vale', note: '', decision: 'burned' },
])('%j is none', (value) => expect(wishOf(value)).toBe(null))
