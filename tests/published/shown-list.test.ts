import { describe, expect, test } from 'vitest'
import { parsePattern } from '../../src/naming/naming.ts'
import { readShownList } from '../../src/published/shown-list.ts'

const parsed = parsePattern('{family}-{given}_{staff-id}.jpg', {}, [])
if (!('pattern' in parsed)) throw new Error('The pattern does not parse.')
const naming = parsed.pattern
const read = (text: string, headers = {}) => readShownList(text, naming, headers)

describe('an export of a website', () => {
  test('lists pictures by path or address, and people by the columns of the roster', () => {
    const list = read(
      'Family;Given;Staff ID;Image\nLund;Bjørn;00990;https://www.example.com/up/team/B%C3%B8rn%201.jpg?w=300\nNair;Priya;15388;.\\web\\nair.jpg\nPham;Linh;17001;\n',
    )
    expect(list).toEqual({
      pictures: [
        {
          line: 2,
          written: 'https://www.example.com/up/team/B%C3%B8rn%201.jpg?w=300',
          places: ['up/team/Børn 1.jpg', 'team/Børn 1.jpg', 'Børn 1.jpg'],
          fields: { family: 'Lund', given: 'Bjørn', 'staff-id': '00990' },
        },
        {
          line: 3,
          written: '.\\web\\nair.jpg',
          places: ['web/nair.jpg', 'nair.jpg'],
          fields: { family: 'Nair', given: 'Priya', 'staff-id': '15388' },
        },
      ],
    })
  })

  test('may call the columns as the spec says', () => {
    expect(read('Nachname,file\nLund,a.jpg\n', { family: 'Nachname' })).toMatchObject({
      pictures: [{ fields: { family: 'Lund' } }],
    })
  })

  test.each(['../secret.jpg', 'a/../../secret.jpg', 'file:///../etc/passwd'])(
    'does not lead out by %s',
    (path) => {
      const list = read(`family,file\nLund,${path}\n`)
      const places = 'pictures' in list ? list.pictures.flatMap((one) => one.places) : []
      expect(places.filter((place) => place.split('/').includes('..') || place.startsWith('/'))).toEqual([])
    },
  )

  test.each([
    ['', 'The list is empty'],
    [
      'family,given\nLund,Bjørn\n',
      'No column says which picture is shown; call it "file". There are "family", "given".',
    ],
    [
      'name,file\nLund,a.jpg\n',
      'No column says whose picture it is; there should be one or more of family, given, staff-id.',
    ],
  ])('that says too little is refused: %j', (text, message) => {
    expect(read(text)).toMatchObject({ problem: { message: expect.stringContaining(message) } })
  })
})
