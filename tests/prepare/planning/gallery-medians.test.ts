import { expect, test } from 'vitest'
import { galleryMedians } from '../../../src/prepare/planning/gallery-medians.ts'
import { TRAITS, type Traits } from '../../../src/rules/delivery/set-traits.ts'

function portraits(deliverable: string | null, eyeLines: readonly number[]) {
  const none = Object.fromEntries(TRAITS.map(({ id }) => [id, null])) as Traits
  return eyeLines.map((line) => ({ deliverable, traits: { ...none, 'eye-line': line } }))
}
const LINES = [36, 37, 38, 39, 40, 41, 42, 50]

test('the median of a deliverable, by its own portraits and those of none', () => {
  const gallery = [...portraits('web', LINES), ...portraits('print', [1, 2, 3])]
  expect(galleryMedians(gallery, 'web')).toEqual({ 'eye-line': 39.5 })
  expect(galleryMedians([...portraits(null, LINES)], 'print')).toEqual({ 'eye-line': 39.5 })
})

test('nothing where fewer than eight tell, or there is no gallery', () => {
  expect(galleryMedians(portraits('web', LINES.slice(1)), 'web')).toEqual({})
  expect(galleryMedians(null, 'web')).toEqual({})
})
