import { readFileSync } from 'node:fs'
import sharp from 'sharp'
import { describe, expect, test } from 'vitest'
import { readSegments } from '../../../../src/measure/file/bytes/segments.ts'
import { iccOf } from '../../../../src/measure/file/jpeg/icc-chunks.ts'
import { debianFile } from '../../../outside/debian.ts'
import { patched, plain } from '../../samples.ts'
import { EOI, iccChunks, SOI, segment } from '../bytes/jpeg-writer.ts'

const ICC = Buffer.from(Array.from({ length: 1000 }, (_, n) => n % 251))
const NUMBER = 16
const COUNT = 17

const icc = (...segments: readonly Buffer[]) => iccOf(readSegments(Buffer.concat([SOI, ...segments, EOI])))

describe('chunks', () => {
  const chunks = iccChunks(ICC, 300)

  test('in order and out of order', () => {
    expect(chunks).toHaveLength(4)
    expect(icc(...chunks)).toEqual(ICC)
    expect(icc(...[...chunks].reverse())).toEqual(ICC)
  })

  test.each([0, 1, 3])('chunk %i missing', (missing) => {
    expect(icc(...chunks.filter((_, n) => n !== missing))).toBe('broken')
  })

  test('one that comes twice', () => {
    expect(icc(...chunks, chunks[0] as Buffer)).toBe('broken')
  })

  test('counts that disagree, or are too high', () => {
    expect(icc(...chunks.map((chunk, n) => patched(chunk, (copy) => copy.writeUInt8(4 + n, COUNT))))).toBe(
      'broken',
    )
    expect(icc(...chunks.map((chunk) => patched(chunk, (copy) => copy.writeUInt8(9, COUNT))))).toBe('broken')
  })

  test('numbers that start at 0', () => {
    expect(icc(...chunks.map((chunk, n) => patched(chunk, (copy) => copy.writeUInt8(n, NUMBER))))).toBe(
      'broken',
    )
  })
})

test('no profile; and an APP2 that is something else', () => {
  expect(icc()).toBeNull()
  expect(icc(segment(0xe2, Buffer.from('MPF\0')), segment(0xe2, Buffer.from('ICC_PROFILE\0')))).toBeNull()
})

const cmyk = debianFile('libgs-common', '/usr/share/color/icc/ghostscript/default_cmyk.icc')

test.skipIf(!cmyk)('a profile of 187 kB that sharp split in three', async () => {
  const profile = readFileSync(cmyk as string)
  const jpeg = await plain([200, 150, 120])
    .withIccProfile(cmyk as string)
    .jpeg()
    .toBuffer()
  const segments = readSegments(jpeg)
  expect(segments.apps.filter(({ n }) => n === 2).map(({ payload }) => payload.length + 2)).toEqual([
    65535, 65535, 56462,
  ])
  expect(iccOf(segments)).toEqual(profile)
  expect((await sharp(jpeg).metadata()).icc).toEqual(profile)
})
