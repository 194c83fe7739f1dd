import { expect, test } from 'vitest'
import type { Person } from '../../src/people/person.ts'
import { comparePublished } from '../../src/published/compare.ts'
import type { Picture } from '../../src/published/publication.ts'
import { SPEC } from '../judge/sample.ts'
import { waves } from '../likeness/waves.ts'
import { GOOD, GOOD_NAME } from '../rules/judging/cases.ts'

const personOf = (label: string): Person => ({ label, fields: {}, entry: null })
const ADA = personOf('Okafor Ada')

/** A file of one frame: another picture for each number. */
function picture(
  path: string,
  frame: number,
  [widthPx, heightPx]: readonly [number, number],
  person = ADA,
): Picture {
  const signature = {
    face: waves(10 * frame, 44, 52),
    head: waves(10 * frame + 1, 22, 24),
    frame: waves(10 * frame + 2, 26, 32),
  }
  const sha256 = `${path.length}${frame}`.padEnd(64, '0')
  return {
    name: { ...GOOD_NAME, path },
    measured: { ...GOOD, file: path, sha256, widthPx, heightPx, signature },
    person,
  }
}

const APPROVED = [picture('print/Ada.jpg', 1, [1200, 1500]), picture('web/Ada.jpg', 1, [600, 600])]

const compared = (shown: readonly Picture[]) =>
  comparePublished({
    shown,
    approved: APPROVED,
    people: [ADA],
    hasRoster: false,
    spec: SPEC,
    today: '2027-01-01',
  })

test.each([
  [[800, 800], 'web/Ada.jpg'],
  [[400, 500], 'print/Ada.jpg'],
] as const)(
  'in place of another picture of %j px, the approved file of that shape is named',
  (size, file) => {
    const { findings } = compared([picture('site/ada.jpg', 2, size)])
    expect(findings).toMatchObject([{ kind: 'not-approved', approved: file }])
    expect(findings[0]?.message).toContain(`Publish "${file}".`)
  },
)

test('whoever is not shown may be shown by any of the approved files', () => {
  expect(compared([]).findings.map(({ message }) => message)).toEqual([
    '"Okafor Ada" is not shown. Publish "print/Ada.jpg" or "web/Ada.jpg".',
  ])
})
