import { describe, expect, test } from 'vitest'
import {
  spaceOfCodePoints,
  statedByAvif,
  statedByPng,
} from '../../../../src/measure/file/container/code-points.ts'
import { box } from '../bytes/box-writer.ts'

describe('code points (ITU-T H.273, Tables 2 and 3)', () => {
  test.each([
    ['BT.709 primaries, sRGB curve', 1, 13, 'sRGB'],
    ['P3 with D65, sRGB curve', 12, 13, 'Display P3'],
    ['BT.709 primaries and curve', 1, 1, 'other'],
    ['BT.2020 primaries, sRGB curve', 9, 13, 'other'],
    ['BT.2100 PQ', 9, 16, 'other'],
    ['BT.709 primaries, curve unspecified', 1, 2, 'other'],
    ['unspecified', 2, 2, null],
  ] as const)('%s', (_, primaries, transfer, space) => {
    expect(spaceOfCodePoints(primaries, transfer)).toBe(space)
  })
})

describe('PNG (third edition, 4.3: cICP goes before sRGB)', () => {
  const cicp = (...points: number[]) => ({ type: 'cICP', data: Buffer.from(points) })
  const srgb = { type: 'sRGB', data: Buffer.from([0]) }

  test.each([
    ['nothing', [], null],
    ['sRGB', [srgb], 'sRGB'],
    ['cICP', [cicp(12, 13, 0, 1)], 'Display P3'],
    ['both', [srgb, cicp(9, 16, 0, 1)], 'other'],
    ['a cICP of one byte', [cicp(12)], null],
  ] as const)('%s', (_, chunks, space) => {
    expect(statedByPng(chunks)).toBe(space)
  })
})

describe('AVIF (nclx)', () => {
  const nclx = (primaries: number, transfer: number) => {
    const content = Buffer.from('nclx\0\0\0\0\0\x06\x80', 'latin1')
    content.writeUInt16BE(primaries, 4)
    content.writeUInt16BE(transfer, 6)
    return box('colr', content)
  }
  const avif = (...colors: readonly Buffer[]) =>
    box('meta', Buffer.concat([Buffer.alloc(4), box('iprp', box('ipco', Buffer.concat(colors)))]))

  test.each([
    ['none', avif(), null],
    ['an ICC profile only', avif(box('colr', Buffer.from('prof...profile...'))), null],
    ['one', avif(nclx(1, 13)), 'sRGB'],
    ['two that agree', avif(nclx(12, 13), nclx(12, 13)), 'Display P3'],
    ['two that do not', avif(nclx(12, 13), nclx(1, 13)), 'other'],
    ['one cut short', avif(box('colr', Buffer.from('nclx\0'))), null],
  ])('%s', (_, content, space) => {
    expect(statedByAvif(content)).toBe(space)
  })
})
