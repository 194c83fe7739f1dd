import { expect, test } from 'vitest'
import { components } from '../../src/imaging/components.ts'

const mask = (...rows: string[]) => Uint8Array.from(rows.join(''), (one) => (one === '#' ? 1 : 0))

test('spots that touch by an edge are one, by a corner two, and rows do not wrap', () => {
  expect(components(mask('##..', '.#..', '....'), 4, 1)).toBe(1)
  expect(components(mask('#...', '.#..', '....'), 4, 1)).toBe(2)
  expect(components(mask('...#', '#...', '....'), 4, 1)).toBe(2)
})

test('smaller spots than asked for do not count', () => {
  expect(components(mask('##.#', '....'), 4, 2)).toBe(1)
  expect(components(mask('....', '....'), 4, 1)).toBe(0)
})
