import { execFileSync } from 'node:child_process'
import { describe, expect, test } from 'vitest'
import { readSegments } from '../../../../src/measure/file/bytes/segments.ts'
import { jpegFacts } from '../../../../src/measure/file/jpeg/facts.ts'
import { debianTool } from '../../../outside/debian.ts'
import { plain } from '../../samples.ts'
import { EOI, frame, SOI } from '../bytes/jpeg-writer.ts'

const cjpeg = debianTool('libjpeg-turbo-progs', 'cjpeg')
const PPM = Buffer.concat([Buffer.from('P6\n16 16\n255\n'), Buffer.alloc(16 * 16 * 3, 128)])

describe.skipIf(!cjpeg)('cjpeg (libjpeg-turbo)', () => {
  const facts = (...args: string[]) =>
    jpegFacts(
      readSegments(execFileSync(cjpeg as string, args, { input: PPM, stdio: ['pipe', 'pipe', 'ignore'] })),
    )

  test.each([
    ['1x1', '4:4:4'],
    ['2x1', '4:2:2'],
    ['2x2', '4:2:0'],
    ['1x2', '4:4:0'],
    ['4x1', '4:1:1'],
    ['4x2', '4:1:0'],
    ['3x1', 'other'],
    ['2x2,1x2,1x2', '4:2:2'],
    ['2x2,2x1,1x2', 'other'],
  ])('-sample %s is %s', (sample, subsampling) => {
    expect(facts('-sample', sample)?.subsampling).toBe(subsampling)
  })

  test('gray has no chroma, RGB samples all three alike', () => {
    expect(facts('-grayscale')?.subsampling).toBe('none')
    expect(facts('-rgb')?.subsampling).toBe('4:4:4')
  })

  test('baseline, extended (16-bit tables), progressive, arithmetic', () => {
    expect(facts()?.progressive).toBe(false)
    expect(facts('-quality', '10')?.progressive).toBe(false)
    expect(facts('-progressive')?.progressive).toBe(true)
    expect(facts('-arithmetic')?.progressive).toBe(false)
    expect(facts('-arithmetic', '-progressive')?.progressive).toBe(true)
  })
})

test.each([
  ['4:4:4', false],
  ['4:2:0', true],
] as const)('sharp: %s, progressive %s', async (chromaSubsampling, progressive) => {
  const jpeg = await plain([200, 150, 120]).jpeg({ quality: 92, chromaSubsampling, progressive }).toBuffer()
  expect(jpegFacts(readSegments(jpeg))).toEqual({
    quality: 92,
    tables: 'ijg',
    subsampling: chromaSubsampling,
    progressive,
  })
})

test('four components: black is sampled as the first', () => {
  const facts = (black: number) =>
    jpegFacts(
      readSegments(
        Buffer.concat([
          SOI,
          frame(0xc0, [
            [1, 2, 2, 0],
            [2, 1, 1, 1],
            [3, 1, 1, 1],
            [4, black, black, 0],
          ]),
          EOI,
        ]),
      ),
    )
  expect(facts(2)?.subsampling).toBe('4:2:0')
  expect(facts(1)?.subsampling).toBe('other')
})

test('unusual tables have no quality', () => {
  const jpeg = Buffer.concat([SOI, frame(0xc2, [[1, 1, 1, 0]]), EOI])
  expect(jpegFacts(readSegments(jpeg))).toEqual({
    quality: null,
    tables: 'non-standard',
    subsampling: 'none',
    progressive: true,
  })
})

test('a sampling factor of zero is no ratio', () => {
  const jpeg = Buffer.concat([
    SOI,
    frame(0xc0, [
      [1, 2, 2, 0],
      [2, 0, 0, 0],
      [3, 0, 0, 0],
    ]),
    EOI,
  ])
  expect(jpegFacts(readSegments(jpeg))?.subsampling).toBe('other')
})

test('no frame, no facts', () => {
  expect(jpegFacts(readSegments(Buffer.concat([SOI, EOI])))).toBeNull()
})
