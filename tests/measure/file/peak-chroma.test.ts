import { readFile } from 'node:fs/promises'
import sharp, { type Sharp } from 'sharp'
import { describe, expect, test } from 'vitest'
import { rgbToLab } from '../../../src/color/lab.ts'
import { peakChroma } from '../../../src/measure/file/peak-chroma.ts'
import { LIMITS, measureFile } from '../../../src/measure/file/read-file.ts'
import { colorSpace } from '../../../src/rules/file/color-space.ts'
import { GOOD_NAME } from '../../rules/judging/cases.ts'

describe('the chroma that the most colorful 0.5 % reach', () => {
  const [RED, GRAY] = [
    [200, 30, 30],
    [128, 128, 128],
  ] as const
  /** A gray picture of 100 x 100 px with so many pixels of red. */
  const picture = (reds: number) => ({
    data: Uint8Array.from(Array.from({ length: 10_000 }, (_, i) => (i < reds ? RED : GRAY)).flat()),
    ...{ width: 100, height: 100 },
  })
  const { a, b } = rgbToLab(...RED)

  test.each([
    [0, 0],
    [40, 0],
    [60, Math.hypot(a, b)],
    [10_000, Math.hypot(a, b)],
  ])('%i of 10,000 pixels in color', (reds, chroma) => {
    expect(peakChroma(picture(reds))).toBeCloseTo(chroma, 1)
  })

  test('of a large picture, pixels spread evenly over it', () => {
    // Every other column in color: a stride that falls in with it would see all or nothing.
    const [width, height] = [1000, 900]
    const data = Uint8Array.from({ length: 3 * width * height }, (_, i) => {
      const color = Math.floor(i / 3) % 2 === 0 ? RED : GRAY
      return color[i % 3] as number
    })
    expect(peakChroma({ data, width, height })).toBeCloseTo(Math.hypot(a, b), 1)
  })

  test('of a single pixel', () => {
    expect(peakChroma({ data: Uint8Array.from(GRAY), width: 1, height: 1 })).toBeCloseTo(0, 1)
  })
})

describe('portraits as files', () => {
  const portrait = readFile('examples/osprey-lane/delivery-clean/web/Lund-Bjørn_00990.jpg')
  const judged = async (edit: (picture: Sharp) => Sharp, options: unknown = 'sRGB') => {
    const data = await edit(sharp(await portrait)).toBuffer()
    const content = { data, bytes: data.length, sha256: null }
    const { measurements } = await measureFile('a.jpg', content, { decode: true, limits: LIMITS })
    return colorSpace.judge({ measured: measurements, name: GOOD_NAME }, options)
  }

  test.each<[what: string, edit: (picture: Sharp) => Sharp, verdict: string, says: string]>([
    ['in color', (p) => p.withIccProfile('srgb').jpeg(), 'pass', 'The color space is sRGB'],
    [
      'in black and white, as an sRGB file',
      (p) => p.grayscale().toColourspace('srgb').withIccProfile('srgb').jpeg({ quality: 80 }),
      'fail',
      'The picture has no color',
    ],
    [
      'in black and white, in one channel',
      (p) => p.grayscale().toColourspace('b-w').jpeg(),
      'fail',
      'The picture has no color',
    ],
    [
      'in muted color',
      (p) => p.modulate({ saturation: 0.5 }).withIccProfile('srgb').jpeg(),
      'pass',
      'The color space is sRGB',
    ],
    [
      'in sepia, which is a color',
      (p) => p.tint('#d8b080').withIccProfile('srgb').jpeg(),
      'pass',
      'The color space is sRGB',
    ],
  ])('%s', async (_, edit, verdict, says) => {
    const finding = await judged(edit)
    expect(finding.verdict, finding.reason).toBe(verdict)
    expect(finding.reason).toContain(says)
  })

  test('in black and white, where that is allowed', async () => {
    const gray = (p: Sharp) => p.grayscale().toColourspace('srgb').withIccProfile('srgb').jpeg()
    expect((await judged(gray, { profile: 'sRGB', 'allow-monochrome': true })).verdict).toBe('pass')
  })
})
