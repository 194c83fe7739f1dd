import { beforeAll, expect, test } from 'vitest'
import { decodePicture } from '../../../src/measure/file/decode.ts'
import { measurePicture } from '../../../src/measure/picture.ts'
import type { Measurements } from '../../../src/measure/schema/measurements.ts'
import type { DeliveryRule } from '../../../src/rules/contract/delivery-rule.ts'
import { duplicatePicture } from '../../../src/rules/delivery/duplicate-picture.ts'
import { sameFrameRule } from '../../../src/rules/delivery/same-frame.ts'
import { type Changes, deliveryOf, portrait } from './deliveries.ts'
import { drawn, flipped, webVariant } from './frames.ts'

// What duplicate-picture and same-frame say of whole deliveries; how well pictures are told apart is the matter of
// same-picture.test.ts.
const measured: Record<
  'first' | 'firstWeb' | 'firstFlipped' | 'smiling' | 'second',
  Partial<Measurements>
> = {
  first: {},
  firstWeb: {},
  firstFlipped: {},
  smiling: {},
  second: {},
}
beforeAll(async () => {
  const files = {
    first: await drawn(1, 0, {}),
    firstWeb: await webVariant(await drawn(1, 0, {}), 400, 1),
    firstFlipped: await flipped(await webVariant(await drawn(1, 0, {}), 320, 1)),
    smiling: await drawn(1, 1, { smile: 4, mouthOpen: 4 }),
    second: await drawn(4, 0, {}),
  }
  for (const key of ['first', 'firstWeb', 'firstFlipped', 'smiling', 'second'] as const) {
    const { face, signature } = await measurePicture(await decodePicture(files[key], 1e8), [
      'face',
      'signature',
    ])
    measured[key] = { ...(face && { face }), ...(signature && { signature }) }
  }
})

const of = (who: string, deliverable: string, key: keyof typeof measured, changes: Changes = {}) => {
  const file = portrait(who, deliverable, changes)
  return { ...file, measured: { ...file.measured, ...measured[key], ...changes.rest } }
}
const judge = (rule: DeliveryRule, option: string, files: Parameters<typeof deliveryOf>[0]) =>
  rule.judge(deliveryOf(files), option)

test('two people, two pictures: nothing is double', () => {
  const [finding, ...more] = judge(duplicatePicture, 'none', [
    of('Lund', 'print', 'first'),
    of('Nair', 'print', 'second'),
  ])
  expect(finding).toMatchObject({ verdict: 'pass', reason: expect.stringContaining('1 pair compared') })
  expect(more).toEqual([])
})

test("one person's picture in another deliverable, delivered for someone else", () => {
  const [finding] = judge(duplicatePicture, 'none', [
    of('Lund', 'print', 'first'),
    of('Nair', 'web', 'firstWeb'),
  ])
  expect(finding).toMatchObject({ verdict: 'fail', people: ['Lund', 'Nair'] })
  expect(finding?.reason).toBe(
    '"print/Lund.jpg" and "web/Nair.jpg" are the same picture, delivered for "Lund" and for "Nair".',
  )
})

test('the same bytes are found even where no signature could be made', () => {
  const same = { rest: { sha256: 'a'.repeat(64), signature: null } }
  const found = judge(duplicatePicture, 'none', [
    of('Lund', 'print', 'first', same),
    of('Nair', 'print', 'first', same),
  ])
  expect(found.map(({ verdict }) => verdict)).toEqual(['fail', 'unsure'])
})

test('many files of the same bytes are one finding; those of one person are none', () => {
  const same = { rest: { sha256: 'b'.repeat(64) } }
  const two = [of('Lund', 'print', 'first', same), of('Lund', 'web', 'first', same)]
  expect(judge(duplicatePicture, 'none', two)[0]?.verdict).toBe('pass')
  const found = judge(duplicatePicture, 'none', [
    ...two,
    of('Nair', 'print', 'first', same),
    of('Okoro', 'print', 'first', same),
  ])
  expect(found).toHaveLength(1)
  expect(found[0]).toMatchObject({ verdict: 'fail', people: ['Lund', 'Nair', 'Okoro'] })
  expect(found[0]?.reason).toContain('delivered for "Lund", for "Nair" and for "Okoro".')
})

test('names that tell nobody make it unsure', () => {
  const nobody = { ...of('x', 'web', 'firstWeb'), person: null }
  expect(judge(duplicatePicture, 'none', [of('Lund', 'print', 'first'), nobody])[0]?.verdict).toBe('unsure')
})

test('a web variant of the same frame passes, one of a smile fails with the fix', () => {
  const pass = judge(sameFrameRule, 'all', [of('Lund', 'print', 'first'), of('Lund', 'web', 'firstWeb')])
  expect(pass.map(({ verdict }) => verdict)).toEqual(['pass'])
  const [fail] = judge(sameFrameRule, 'all', [of('Lund', 'print', 'smiling'), of('Lund', 'web', 'firstWeb')])
  expect(fail).toMatchObject({ verdict: 'fail', people: ['Lund'] })
  expect(fail?.fix).toBe('Decide which frame was approved, and export all variants from it.')
})

test('a flipped variant fails, and nobody knows which of two is the right way round', () => {
  const [fail, ...more] = judge(sameFrameRule, 'all', [
    of('Lund', 'print', 'first'),
    of('Lund', 'web', 'firstFlipped'),
  ])
  expect(fail).toMatchObject({ verdict: 'fail', people: ['Lund'], measured: 'mirrored' })
  expect(fail?.reason).toBe(
    '"web/Lund.jpg" is a mirror image of "print/Lund.jpg"; all variants must show the sitter the same way round.',
  )
  expect(fail?.fix).toBe(
    'Flip it back, or the other if that one is reversed: lettering, badges and the hair parting show which.',
  )
  expect(more).toEqual([])
})

test('of three files the one that differs is flipped back, even if it is the largest', () => {
  const [fail, ...more] = judge(sameFrameRule, 'all', [
    of('Lund', 'print', 'first'),
    of('Lund', 'web', 'firstFlipped'),
    of('Lund', 'card', 'firstFlipped'),
  ])
  expect(fail?.reason).toContain('"print/Lund.jpg" is a mirror image of "web/Lund.jpg" and "card/Lund.jpg"')
  expect(fail?.fix).toBe('Flip it back.')
  expect(fail?.files).toEqual(['print/Lund.jpg', 'web/Lund.jpg', 'card/Lund.jpg'])
  expect(more).toEqual([])
})

test('without a signature, or with an unsure face, the frame is unsure', () => {
  const faces = [{ rest: { signature: null } }, { rest: { face: null } }]
  for (const changes of faces) {
    const found = judge(sameFrameRule, 'all', [
      of('Lund', 'print', 'first'),
      of('Lund', 'web', 'firstWeb', changes),
    ])
    expect(found.map(({ verdict }) => verdict)).toEqual(['unsure'])
  }
})

test('one file each: nothing to compare', () => {
  const found = judge(sameFrameRule, 'all', [of('Lund', 'print', 'first'), of('Nair', 'print', 'second')])
  expect(found.map(({ verdict }) => verdict)).toEqual(['skip'])
})
