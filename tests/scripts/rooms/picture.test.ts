import { expect, test } from 'vitest'
import { withRooms } from '../../../scripts/rooms/picture.ts'

const BEGIN = '<!-- Generated from src/rooms.yaml; change it there and run: npm run generate -->'
const END = '<!-- End of what is generated -->'
const ROOMS = [
  { folder: 'numbers', business: 'sums', not: 'meaning' },
  { folder: '.', business: 'the ways in', not: 'else' },
]

test('the list stands between its marks, in its order, and what was there is replaced', () => {
  const page = `Before\n${BEGIN}\nold\n${END}\nAfter\n`
  const made = withRooms(page, ROOMS)
  expect(made.split('\n')).toEqual([
    'Before',
    BEGIN,
    '| folder | what it is for | what it is not for |',
    '|---|---|---|',
    '| `numbers` | sums | meaning |',
    '| `src` itself | the ways in | else |',
    END,
    'After',
    '',
  ])
  expect(withRooms(made, ROOMS)).toBe(made)
})

test('a page without marks', () => {
  expect(() => withRooms('Before\n', ROOMS)).toThrow(/has no place for the list of folders/)
})
