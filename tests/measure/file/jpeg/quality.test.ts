import { execFileSync } from 'node:child_process'
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { readSegments } from '../../../../src/measure/file/bytes/segments.ts'
import { ijgQuality } from '../../../../src/measure/file/jpeg/quality.ts'
import { debianTool } from '../../../outside/debian.ts'
import { plain, temporaryFile } from '../../samples.ts'
import { EOI, frame, quantization, SOI } from '../bytes/jpeg-writer.ts'

const QUALITIES = Array.from({ length: 100 }, (_, n) => n + 1)

/** Tables of a JPEG of this quality by the library that sharp carries. */
async function sharpSegments(quality: number) {
  return readSegments(await plain([200, 150, 120]).jpeg({ quality }).toBuffer())
}

describe('sharp (another implementation of the IJG scaling)', () => {
  test.each(QUALITIES)('quality %i', async (quality) => {
    expect(ijgQuality(await sharpSegments(quality))).toBe(quality)
  })
})

// Sums of the 64 values of the luminance and chrominance table. 97 to 100 are also in a public list of the signatures
// of IJG tables; the others were counted in files of Debian's cjpeg 2.1.5.
const SUMS: readonly (readonly [quality: number, luminance: number, chrominance: number])[] = [
  [25, 7376, 11010],
  [30, 6125, 9122],
  [40, 4616, 6897],
  [50, 3688, 5505],
  [60, 2952, 4395],
  [70, 2211, 3284],
  [75, 1858, 2780],
  [80, 1477, 2221],
  [85, 1109, 1666],
  [90, 736, 1110],
  [91, 667, 999],
  [92, 592, 891],
  [93, 518, 779],
  [94, 441, 668],
  [95, 369, 558],
  [96, 292, 443],
  [97, 221, 333],
  [98, 151, 224],
  [99, 86, 115],
  [100, 64, 64],
]

describe('sums of the tables read', () => {
  test.each(SUMS)('quality %i: %i and %i', async (quality, ...sums) => {
    const { tables } = await sharpSegments(quality)
    expect([0, 1].map((id) => tables.get(id)?.reduce((sum, value) => sum + value, 0))).toEqual(sums)
  })
})

const cjpeg = debianTool('libjpeg-turbo-progs', 'cjpeg')
const PPM = Buffer.concat([Buffer.from('P6\n16 16\n255\n'), Buffer.alloc(16 * 16 * 3, 128)])

describe.skipIf(!cjpeg)('cjpeg (libjpeg-turbo, the IJG interface)', () => {
  const encode = (...args: string[]) =>
    readSegments(execFileSync(cjpeg as string, args, { input: PPM, stdio: ['pipe', 'pipe', 'ignore'] }))

  let folder = ''
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'cjpeg-'))
    writeFileSync(join(folder, 'gray.ppm'), PPM)
    // By one shell: a process as large as that of the tests takes long to fork.
    const script = `for quality in $(seq 1 100); do
      "$1" -quality $quality -outfile $quality-wide.jpg gray.ppm
      "$1" -quality $quality -baseline -outfile $quality-baseline.jpg gray.ppm
    done`
    execFileSync('sh', ['-ec', script, 'sh', cjpeg as string], { cwd: folder, stdio: 'ignore' })
  })

  afterAll(() => rmSync(folder, { recursive: true }))

  // Without -baseline, tables up to quality 23 hold values above 255, in 16 bits.
  test.each(QUALITIES)('quality %i, wide and baseline tables', (quality) => {
    for (const tables of ['wide', 'baseline'])
      expect(ijgQuality(readSegments(readFileSync(join(folder, `${quality}-${tables}.jpg`)))), tables).toBe(
        quality,
      )
  })

  test('gray and RGB pictures, which have one table', () => {
    expect(ijgQuality(encode('-quality', '85', '-grayscale'))).toBe(85)
    expect(ijgQuality(encode('-quality', '85', '-rgb'))).toBe(85)
  })

  test('two qualities in one file have none', () => {
    expect(ijgQuality(encode('-quality', '90,80'))).toBeNull()
  })

  test('other tables than those of Annex K have none', () => {
    const tables = temporaryFile('tables.txt', '20 '.repeat(64) + '30 '.repeat(64))
    expect(ijgQuality(encode('-quality', '75', '-qtables', tables))).toBeNull()
  })
})

describe('no number where there is none', () => {
  const Y: readonly [number, number, number, number] = [1, 1, 1, 0]
  const GRAY = frame(0xc0, [Y])
  const flat = Array.from({ length: 64 }, () => 20)

  test('flat tables', () => {
    expect(ijgQuality(readSegments(Buffer.concat([SOI, quantization(0, flat), GRAY, EOI])))).toBeNull()
  })

  test('one value off', async () => {
    const table = [...((await sharpSegments(90)).tables.get(0) ?? [])]
    const jpeg = (values: readonly number[]) => Buffer.concat([SOI, quantization(0, values), GRAY, EOI])
    expect(ijgQuality(readSegments(jpeg(table)))).toBe(90)
    table[17] = (table[17] as number) + 1
    expect(ijgQuality(readSegments(jpeg(table)))).toBeNull()
  })

  test('a component whose table is missing, and no frame at all', () => {
    expect(ijgQuality(readSegments(Buffer.concat([SOI, GRAY, EOI])))).toBeNull()
    expect(ijgQuality(readSegments(Buffer.concat([SOI, quantization(0, flat), EOI])))).toBeNull()
  })
})
