import { describe, expect, test } from 'vitest'
import { galleryText, readGallery } from '../../../src/gallery/gallery-file.ts'
import { MEASURER_VERSION } from '../../../src/measure/schema/measurements.ts'
import type { Delivery, GalleryPortrait } from '../../../src/rules/contract/delivery-rule.ts'
import { setMatch } from '../../../src/rules/delivery/set-match.ts'
import { traitsOf } from '../../../src/rules/delivery/set-traits.ts'
import { gaussian } from '../../random.ts'
import { deliveryOf, portrait } from './deliveries.ts'

/** Portraits made in one sitting: each number varies a little. */
function sitting(n: number, seed: number) {
  const normal = gaussian(seed)
  return Array.from({ length: n }, (_, i) =>
    portrait(`P${i}`, 'print', {
      head: { headroomPct: 9 + 0.5 * normal(), eyeLinePct: 37 + 0.5 * normal() },
      background: { lightnessL: 96 + 0.3 * normal() },
    }),
  )
}
const judge = (delivery: Delivery, options = {}) => setMatch.judge(delivery, options)

describe('the set against itself', () => {
  test('a sitting holds together', () => {
    const [finding, ...more] = judge(deliveryOf(sitting(20, 1)))
    expect(finding).toMatchObject({ verdict: 'pass', files: [] })
    expect(more).toEqual([])
  })

  test('who stands out, how far, in which direction, and who is fixed first', () => {
    const files = [
      ...sitting(20, 2),
      portrait('Low', 'print', { head: { headroomPct: 4, eyeLinePct: 32 } }),
      portrait('Dark', 'print', { background: { lightnessL: 88 } }),
    ]
    const found = judge(deliveryOf(files))
    expect(found.map(({ verdict }) => verdict)).toEqual(['fail', 'fail'])
    const [first, second] = found
    expect(first?.files).toEqual(['print/Dark.jpg'])
    expect(first?.reason).toMatch(/lightness of the backdrop is 88 L\*, [78](\.\d)? L\* below the median/)
    expect(first?.fix).toBe('Begin with this one: lighten the backdrop, or choose another frame.')
    expect(second?.files).toEqual(['print/Low.jpg'])
    expect(second?.fix).toBe('Move the crop up, or choose another frame.')
  })

  test('big hair is the sitter and not the crop, as long as the eyes lie where the others have theirs', () => {
    const files = [
      ...sitting(20, 2),
      portrait('Curls', 'print', { head: { headroomPct: 4, eyeLinePct: 37 } }),
    ]
    expect(judge(deliveryOf(files))).toMatchObject([{ verdict: 'pass' }])
  })

  test('seven are too few: skipped with a sentence; eight are enough', () => {
    const [few] = judge(deliveryOf(sitting(7, 3)))
    expect(few).toMatchObject({
      verdict: 'skip',
      reason: expect.stringContaining('judged by the spec alone'),
    })
    expect(judge(deliveryOf(sitting(8, 3)))[0]?.verdict).toBe('pass')
  })

  test('what was not measured is unsure, never a pass', () => {
    const files = [...sitting(12, 4), portrait('Unknown', 'print', { head: { confidence: 0.2 } })]
    const found = judge(deliveryOf(files))
    expect(found.map(({ verdict, files: about }) => [verdict, about])).toEqual([
      ['unsure', ['print/Unknown.jpg']],
    ])
  })

  test('a backdrop more even than the others is no fault', () => {
    const even = (i: number) => ({ background: { unevennessL: i === 0 ? 0 : 9 } })
    const files = Array.from({ length: 12 }, (_, i) => portrait(`P${i}`, 'print', even(i)))
    expect(judge(deliveryOf(files))[0]?.verdict).toBe('pass')
  })

  test('a wider limit lets more pass', () => {
    const files = [...sitting(20, 2), portrait('Low', 'print', { head: { headroomPct: 5, eyeLinePct: 33 } })]
    expect(judge(deliveryOf(files))[0]?.verdict).toBe('fail')
    expect(judge(deliveryOf(files), { 'max-score': 40 })[0]?.verdict).toBe('pass')
  })
})

describe('the set against a gallery', () => {
  const gallery: GalleryPortrait[] = sitting(15, 6).map(({ measured }) => ({
    deliverable: 'print',
    traits: traitsOf(measured),
  }))

  test('three new ones that agree with each other but not with the gallery', () => {
    const files = ['A', 'B', 'C'].map((who) => portrait(who, 'print', { background: { lightnessL: 90 } }))
    const found = judge({ ...deliveryOf(files), gallery })
    expect(found.map(({ verdict }) => verdict)).toEqual(['fail', 'fail', 'fail'])
    expect(found[0]?.reason).toContain('stands out from the gallery')
  })

  test('saved and read again it judges the same, and holds numbers only', () => {
    const text = galleryText(gallery)
    expect(text).not.toMatch(/P\d|jpg/)
    const read = readGallery(text)
    if ('problem' in read) throw new Error(read.problem)
    const files = sitting(3, 7)
    expect(judge({ ...deliveryOf(files), gallery: read.portraits }).map(({ verdict }) => verdict)).toEqual(
      judge({ ...deliveryOf(files), gallery }).map(({ verdict }) => verdict),
    )
  })

  test.each([
    ['no JSON', '{', 'This is not JSON.'],
    ['another file', '{"kind": "roster"}', 'This is not a gallery file.'],
    [
      'another version',
      galleryText(gallery).replace(`"measurer": ${MEASURER_VERSION}`, '"measurer": 99999'),
      "the numbers can't be compared",
    ],
  ])('%s is refused with a sentence', (_, text, says) => {
    expect(readGallery(text)).toMatchObject({ problem: expect.stringContaining(says) })
  })
})
