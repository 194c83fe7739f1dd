import { createHash } from 'node:crypto'
import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { readProfile } from '../../../../src/measure/file/icc/profile.ts'
import { bytesRead } from '../../../calls.ts'
import { debianFile } from '../../../outside/debian.ts'
import { seeded } from '../../../random.ts'
import { patched } from '../../samples.ts'
import { COLORANTS, u32, writeProfile } from './icc-writer.ts'

const TAG_COUNT = 128
const FIRST_OFFSET = 136
const FIRST_SIZE = 140

describe('a matrix profile', () => {
  test.each([2, 4] as const)('of version %i', (version) => {
    const profile = readProfile(writeProfile({ version, name: 'Osprey Lane', colorants: COLORANTS.adobe }))
    expect(profile?.name).toBe('Osprey Lane')
    for (const [n, colorant] of COLORANTS.adobe.entries()) {
      for (const [m, value] of colorant.entries()) {
        expect(profile?.model?.colorants[n]?.[m]).toBeCloseTo(value, 4)
      }
    }
    expect(profile?.model?.curves[2](1)).toBeCloseTo(1, 4)
  })

  test('one that carries a lookup table is not defined by its matrix', () => {
    expect(readProfile(writeProfile({ more: { A2B0: Buffer.alloc(32) } }))?.model).toBeNull()
  })

  test.each(['GRAY', 'CMYK', 'Lab '])('data space %s has no matrix of red, green and blue', (dataSpace) => {
    expect(readProfile(writeProfile({ dataSpace }))?.model).toBeNull()
  })

  test('connected through Lab it has none either', () => {
    expect(readProfile(writeProfile({ connectionSpace: 'Lab ' }))?.model).toBeNull()
  })

  test('without one of its curves, or with a colorant of another type', () => {
    expect(readProfile(writeProfile({ more: { gTRC: Buffer.from('none\0\0\0\0') } }))?.model).toBeNull()
    expect(readProfile(writeProfile({ more: { bXYZ: Buffer.from('none\0\0\0\0') } }))?.model).toBeNull()
  })
})

describe('malformed profiles have no model', () => {
  const whole = writeProfile()

  test.each([
    ['no signature', patched(whole, (copy) => copy.write('xxxx', 36))],
    ['four thousand million tags', patched(whole, (copy) => copy.fill(0xff, TAG_COUNT, TAG_COUNT + 4))],
    ['an offset beyond the end', patched(whole, (copy) => copy.writeUInt32BE(0xfffffff0, FIRST_OFFSET))],
    ['a size beyond the end', patched(whole, (copy) => copy.writeUInt32BE(0xfffffff0, FIRST_SIZE))],
    ['nothing', Buffer.alloc(0)],
    ['a header alone', whole.subarray(0, 128)],
    ['a colorant of no bytes', writeProfile({ more: { rXYZ: Buffer.alloc(0) } })],
    ['text', Buffer.from('a'.repeat(4000))],
    ['a curve that ends early', writeProfile({ more: { rTRC: Buffer.from('curv') } })],
    [
      'a curve of claimed values',
      writeProfile({ more: { rTRC: Buffer.concat([Buffer.from('curv\0\0\0\0'), u32(1e9)]) } }),
    ],
  ])('%s', (_, icc) => {
    const profile = readProfile(icc)
    expect(profile?.model ?? null).toBeNull()
  })

  test.each([
    ['nothing', () => 0],
    ['less than its header', () => 131],
    ['more than there is', (length: number) => length + 1],
  ])('a size of %s', (_, size) => {
    expect(readProfile(patched(whole, (copy) => copy.writeUInt32BE(size(whole.length), 0)))).toBeNull()
  })

  test.each([
    ['a size that ends before its tags', patched(whole, (copy) => copy.writeUInt32BE(200, 0))],
    ['a class that no picture may carry', patched(whole, (copy) => copy.write('link', 12))],
    ['a version that is not known', patched(whole, (copy) => copy.writeUInt8(9, 8))],
    [
      'a tag that stands twice',
      patched(whole, (copy) => copy.copy(copy, FIRST_OFFSET + 8, 132, FIRST_OFFSET)),
    ],
  ])('%s', (_, icc) => expect(readProfile(icc)).toBeNull())

  // ICC.1:2022, 9.2.17: coding-independent code points, by which programs that know them go.
  test('code points of another space, which go before the matrix', () => {
    const cicp = Buffer.from('cicp\0\0\0\0\x09\x10\0\x01', 'latin1')
    expect(readProfile(writeProfile({ more: { cicp } }))?.model).toBeNull()
  })

  test('padding behind its size', () => {
    expect(readProfile(Buffer.concat([whole, Buffer.alloc(3)]))?.model).not.toBeNull()
  })

  test('millions of tags are read no further', () => {
    const many = Buffer.concat([whole.subarray(0, 132), Buffer.alloc(12 * 2_000_000)])
    many.writeUInt32BE(2_000_000, 128)
    expect(bytesRead(() => expect(readProfile(many)).toBeNull())).toBeLessThan(10)
  })

  test('a name of no bytes is none, and leaves the model', () => {
    const profile = readProfile(patched(whole, (copy) => copy.writeUInt32BE(0, FIRST_SIZE)))
    expect(profile?.name).toBeNull()
    expect(profile?.model).not.toBeNull()
  })

  test('every cut, and 5000 times some bytes changed: never an exception', () => {
    for (let length = 0; length < whole.length; length++) readProfile(whole.subarray(0, length))
    const random = seeded(7)
    const below = (limit: number) => Math.floor(random() * limit)
    for (let n = 0; n < 5000; n++) {
      const profile = readProfile(
        patched(whole, (copy) => {
          for (let k = 0; k <= n % 8; k++) copy.writeUInt8(below(256), below(copy.length))
        }),
      )
      for (const curve of profile?.model?.curves ?? []) expect(curve(0.5)).toBeTypeOf('number')
    }
  })
})

// ICC.1:2022, 7.2.18: the profile ID is the MD5 of the profile with flags, intent and the ID itself set to zero. A
// published file whose ID holds was read as its maker wrote it.
const colord = debianFile('colord-data', '/usr/share/color/icc/colord/sRGB.icc')

test.skipIf(!colord)('a real profile of version 4, whole by its own checksum', () => {
  const icc = readFileSync(colord as string)
  const blank = patched(icc, (copy) => copy.fill(0, 44, 48).fill(0, 64, 68).fill(0, 84, 100))
  expect(createHash('md5').update(blank).digest('hex')).toBe(icc.subarray(84, 100).toString('hex'))
  expect(readProfile(icc)?.name).toBe('sRGB')
})
