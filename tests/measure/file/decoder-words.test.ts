import { describe, expect, test } from 'vitest'
import { decoderWords } from '../../../src/measure/file/decoder-words.ts'

describe("the decoder's words", () => {
  test('the last line that says something', () => {
    expect(decoderWords(new Error('source: bad seek\n heif: Unexpected end of file \n\n'))).toBe(
      'heif: Unexpected end of file',
    )
  })

  test('at most 200 characters', () => {
    expect(decoderWords(new Error('x'.repeat(5000)))).toHaveLength(200)
  })

  test('of something that is no Error, and of nothing', () => {
    expect(decoderWords('refused')).toBe('refused')
    expect(decoderWords(new Error(''))).toBe('')
  })
})
