import { expect, test } from 'vitest'
import { COMPLETE, STAFF } from '../rules/delivery/delivery-cases.ts'
import { metadata } from '../rules/judging/cases.ts'
import { wholeReport } from './whole.ts'

const RIGHT = 'web/Lund-Bjørn_00990.jpg'
const ASKED = { 'metadata-required': { 'alt-text': '{given} {family}' } }

/** What `metadata-required` says of a file that bears a name, with the right alt text for Bjørn Lund or another. */
function judged(path: string, altText: string) {
  const paths = COMPLETE.map((one) => (one === RIGHT ? path : one))
  const { files } = wholeReport(paths, [], { [path]: metadata({ altText }) }, STAFF, ASKED)
  const file = files.find((one) => one.file === path)
  return file?.outcomes.find(({ rule }) => rule === 'metadata-required')
}

test.each([RIGHT, 'web/Lunt-Bjørn_00990.jpg', 'web/lund-bjorn_00990.jpg', 'web/Lund-Bjørn_990.jpg'])(
  'under the name %s, the metadata is held against the person on the roster',
  (path) => {
    expect(judged(path, 'Portrait of Bjørn Lund')?.verdict).toBe('pass')
    expect(judged(path, 'Portrait of Priya Nair')).toMatchObject({
      verdict: 'fail',
      export: { fillIn: { 'alt-text': ['Bjørn Lund'] } },
    })
  },
)

test('somebody who is not on the roster is called as the file says', () => {
  expect(judged('web/Quist-Ada_77777.jpg', 'Portrait of Ada Quist')?.verdict).toBe('pass')
})
