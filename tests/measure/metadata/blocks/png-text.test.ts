import { deflateSync } from 'node:zlib'
import { describe, expect, test } from 'vitest'
import { readPngText } from '../../../../src/measure/metadata/blocks/png-text.ts'

const read = (type: string, ...parts: readonly (string | Buffer)[]) =>
  readPngText({ type, data: Buffer.concat(parts.map((part) => Buffer.from(part as string, 'latin1'))) }, 1000)

// PNG, third edition, 11.3.3.2 to 11.3.3.4.
describe('chunks', () => {
  test.each([
    ['tEXt in Latin-1', () => read('tEXt', 'Author\0Åsa'), 'Åsa'],
    ['zTXt', () => read('zTXt', 'Author\0\0', deflateSync(Buffer.from('Åsa', 'latin1'))), 'Åsa'],
    ['iTXt in UTF-8', () => read('iTXt', 'Author\0\0\0de\0Urheber\0', Buffer.from('Åsa')), 'Åsa'],
    ['iTXt, compressed', () => read('iTXt', 'Author\0\x01\0\0\0', deflateSync(Buffer.from('Åsa'))), 'Åsa'],
  ])('%s', (_, chunk, text) => expect(chunk()).toEqual({ keyword: 'Author', text }))
})

describe('unreadable', () => {
  test.each([
    ['no keyword', () => read('tEXt', 'Author'), 'damaged'],
    ['iTXt without its fields', () => read('iTXt', 'Author\0\0\0de'), 'damaged'],
    ['compressed text that is none', () => read('zTXt', 'Author\0\0junk'), 'damaged'],
    ['a text that is too long', () => read('tEXt', `Author\0${'x'.repeat(1001)}`), 'too-large'],
    [
      'a kilobyte that unpacks to a megabyte',
      () => read('zTXt', 'Author\0\0', deflateSync(Buffer.alloc(1_000_000))),
      'too-large',
    ],
  ])('%s', (_, chunk, why) => expect(chunk()).toEqual({ why }))
})
