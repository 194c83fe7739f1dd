import { execFileSync } from 'node:child_process'
import { readFileSync } from 'node:fs'
import sharp from 'sharp'
import { describe, expect, test } from 'vitest'
import { rgbToLab } from '../../../src/color/lab.ts'
import { decodePicture } from '../../../src/measure/file/decode.ts'
import { debianFile, debianTool } from '../../outside/debian.ts'
import { plain, type Rgb, temporaryFile } from '../samples.ts'
import { iccChunks, withSegments } from './bytes/jpeg-writer.ts'
import { iccp, withChunks } from './bytes/png-writer.ts'
import { rgbTiff } from './bytes/tiff-writer.ts'
import { COLORANTS, curv, gamma, writeProfile } from './icc/icc-writer.ts'

const LIMIT = 1_000_000
const SKIN: Rgb = [200, 150, 120]

type LabValues = readonly [L: number, a: number, b: number]

/** L*a*b* of the first pixel of a picture of one color whose codes are tagged with a profile. */
async function labOf(rgb: Rgb, icc: Buffer | null): Promise<LabValues> {
  const png = await plain(rgb).png().toBuffer()
  const { data } = await decodePicture(icc ? withChunks(png, [iccp(icc)]) : png, LIMIT)
  const { L, a, b } = rgbToLab(data[0] as number, data[1] as number, data[2] as number)
  return [L, a, b]
}

/** The decoded codes are whole numbers: half a code is up to 0.2 in L*, and more in a* and b*. */
function expectNear(lab: LabValues, expected: LabValues): void {
  for (const [n, value] of lab.entries()) {
    expect(Math.abs(value - (expected[n] as number)), `${'Lab'[n]}* of ${lab}`).toBeLessThan(0.6)
  }
}

// RGB (200, 150, 120) through profiles of each space with LittleCMS 2.14 (transicc), absolute to D50; colorjs.io 0.7.1
// gives the same within 0.01.
const SKIN_IN = {
  srgb: [66.41, 16.5, 23.54],
  adobe: [68.69, 22.71, 27.36],
  p3: [66.744, 21.183, 27.027],
  prophoto: [73.541, 34.958, 27.145],
  swapped: [75.66, -27.744, 34.492],
} as const

describe('the embedded profile is applied', () => {
  const swapped = [COLORANTS.srgb[1], COLORANTS.srgb[0], COLORANTS.srgb[2]]
  test.each([
    ['no profile: taken as sRGB', null, SKIN_IN.srgb],
    ['sRGB', writeProfile(), SKIN_IN.srgb],
    [
      'Adobe RGB (1998)',
      writeProfile({ colorants: COLORANTS.adobe, curves: [gamma(563 / 256)] }),
      SKIN_IN.adobe,
    ],
    ['Display P3', writeProfile({ colorants: COLORANTS.p3 }), SKIN_IN.p3],
    ['ProPhoto', writeProfile({ colorants: COLORANTS.prophoto, curves: [gamma(1.8)] }), SKIN_IN.prophoto],
    ['red and green swapped', writeProfile({ colorants: swapped }), SKIN_IN.swapped],
  ] as const)('%s', async (_, icc, lab) => {
    expectNear(await labOf(SKIN, icc), lab)
  })

  // The same source: a gray of code 230.
  test.each([
    ['sRGB', writeProfile(), 91.293],
    ['Adobe RGB (1998)', writeProfile({ colorants: COLORANTS.adobe, curves: [gamma(563 / 256)] }), 91.549],
    ['ProPhoto', writeProfile({ colorants: COLORANTS.prophoto, curves: [gamma(1.8)] }), 93.036],
    ['linear', writeProfile({ curves: [curv()] }), 96.077],
  ] as const)('a backdrop of 230 in %s', async (_, icc, L) => {
    expectNear(await labOf([230, 230, 230], icc), [L, 0, 0])
  })

  test('in a JPEG too, its chunks out of order', async () => {
    const icc = writeProfile({ colorants: COLORANTS.adobe, curves: [gamma(563 / 256)] })
    const jpeg = await plain(SKIN).jpeg({ quality: 100, chromaSubsampling: '4:4:4' }).toBuffer()
    const { data } = await decodePicture(withSegments(jpeg, iccChunks(icc, 100).reverse()), LIMIT)
    const { L, a, b } = rgbToLab(data[0] as number, data[1] as number, data[2] as number)
    expectNear([L, a, b], SKIN_IN.adobe)
  })

  test.each([
    ['garbage', Buffer.alloc(3000, 'A')],
    ['a profile for gray pictures', writeProfile({ dataSpace: 'GRAY' })],
    ['a profile cut short', writeProfile().subarray(0, 200)],
  ])('a useless profile leaves the codes as sRGB: %s', async (_, icc) => {
    const jpeg = await plain(SKIN).jpeg({ quality: 100, chromaSubsampling: '4:4:4' }).toBuffer()
    const { data } = await decodePicture(withSegments(jpeg, iccChunks(icc)), LIMIT)
    const { L, a, b } = rgbToLab(data[0] as number, data[1] as number, data[2] as number)
    expectNear([L, a, b], SKIN_IN.srgb)
  })
})

const transicc = debianTool('liblcms2-utils', 'transicc')

describe.skipIf(!transicc)('LittleCMS on the same file (transicc)', () => {
  const profiles = [
    ['icc-profiles-free', '/usr/share/color/icc/sRGB.icc'],
    ['icc-profiles-free', '/usr/share/color/icc/compatibleWithAdobeRGB1998.icc'],
    ['colord-data', '/usr/share/color/icc/colord/AppleRGB.icc'],
    ['colord-data', '/usr/share/color/icc/colord/ECI-RGBv2.icc'],
    ['argyll-ref', '/usr/share/color/argyll/ref/DisplayP3.icm'],
    ['argyll-ref', '/usr/share/color/argyll/ref/ProPhoto.icm'],
    ['argyll-ref', '/usr/share/color/argyll/ref/Rec709.icm'],
  ] as const
  const colors: readonly Rgb[] = [SKIN, [230, 230, 230], [115, 82, 68], [160, 150, 140]]

  /** Relative colorimetric, to L*a*b* under D50. */
  function reference(path: string, rgb: Rgb): LabValues {
    const args = ['-n', '-t', '1', '-i', path, '-o', '*Lab']
    const output = execFileSync(transicc as string, args, {
      input: `${rgb.join('\n')}\n`,
      encoding: 'utf8',
      stdio: ['pipe', 'pipe', 'ignore'],
    })
    const [L, a, b] = output.trim().split(/\s+/).map(Number)
    return [L ?? Number.NaN, a ?? Number.NaN, b ?? Number.NaN]
  }

  for (const [debianPackage, path] of profiles) {
    const file = debianFile(debianPackage, path)
    test.skipIf(!file).each(colors)(`${path}: %i %i %i`, async (...rgb) => {
      expectNear(await labOf(rgb, readFileSync(path)), reference(path, rgb))
    })
  }
})

describe('orientation', () => {
  const corners: readonly Rgb[] = [
    [255, 0, 0],
    [0, 255, 0],
    [0, 0, 255],
    [255, 255, 255],
  ]
  const NAMES = ['R', 'G', 'B', 'W']

  /** 48 x 32 px in four fields: top left red, top right green, bottom left blue, bottom right white. */
  async function fields() {
    const tiles = await Promise.all(corners.map((color) => plain(color, 24, 16).png().toBuffer()))
    const places = tiles.map((input, n) => ({ input, left: 24 * (n % 2), top: 16 * Math.floor(n / 2) }))
    return plain([0, 0, 0], 48, 32).composite(places)
  }

  /** Which field's color a pixel has. */
  function nameAt(data: Buffer, at: number): string {
    const distance = (color: Rgb) =>
      color.reduce((sum, value, c) => sum + Math.abs(value - (data[at + c] as number)), 0)
    const nearest = corners.reduce((best, color) => (distance(color) < distance(best) ? color : best))
    return NAMES[corners.indexOf(nearest)] as string
  }

  // Top left, top right / bottom left, bottom right as displayed; CIPA DC-008 4.6.4 (Orientation), the same as an
  // independent program (ImageMagick's -auto-orient) shows.
  test.each([
    [1, 48, 32, 'RG/BW'],
    [2, 48, 32, 'GR/WB'],
    [3, 48, 32, 'WB/GR'],
    [4, 48, 32, 'BW/RG'],
    [5, 32, 48, 'RB/GW'],
    [6, 32, 48, 'BR/WG'],
    [7, 32, 48, 'WG/BR'],
    [8, 32, 48, 'GW/RB'],
  ] as const)('%i shows as %i x %i, %s', async (orientation, width, height, shown) => {
    const picture = (await fields()).withMetadata({ orientation })
    for (const file of [
      await picture.clone().jpeg({ chromaSubsampling: '4:4:4' }).toBuffer(),
      await picture.clone().png().toBuffer(),
      await picture.clone().tiff().toBuffer(),
      await picture.clone().webp().toBuffer(),
    ]) {
      const decoded = await decodePicture(file, LIMIT)
      expect([decoded.width, decoded.height]).toEqual([width, height])
      const at = (x: number, y: number) => nameAt(decoded.data, 3 * (y * width + x))
      const [right, bottom] = [width - 4, height - 4]
      expect(`${at(3, 3)}${at(right, 3)}/${at(3, bottom)}${at(right, bottom)}`).toBe(shown)
    }
  })
})

describe('every kind of pixels comes out as 8-bit RGB', () => {
  const rgba = (alpha: number) =>
    sharp({ create: { width: 8, height: 6, channels: 4, background: { r: 200, g: 150, b: 120, alpha } } })

  test.each([
    ['gray JPEG', () => plain([128, 128, 128]).toColourspace('b-w').jpeg(), [128, 128, 128]],
    ['16-bit PNG', () => plain(SKIN).toColourspace('rgb16').png(), SKIN],
    ['16-bit gray PNG', () => plain([128, 128, 128]).toColourspace('gray16').png(), [128, 128, 128]],
    ['palette PNG', () => plain(SKIN).png({ palette: true }), SKIN],
    ['lossless WebP', () => plain(SKIN).webp({ lossless: true }), SKIN],
  ] as const)('%s', async (_, picture, rgb) => {
    const { data, width, height, transparentShare } = await decodePicture(await picture().toBuffer(), LIMIT)
    expect(data).toHaveLength(width * height * 3)
    expect([...data.subarray(0, 3)]).toEqual(rgb)
    expect(transparentShare).toBe(0)
  })

  test('transparent pixels are laid on white and counted', async () => {
    const file = await rgba(0.5).png().toBuffer()
    const { data, transparentShare } = await decodePicture(file, LIMIT)
    expect(data).toHaveLength(8 * 6 * 3)
    // Alpha 0.5 is code 128: (200 x 128 + 255 x 127) / 255, and so on.
    expect([...data.subarray(0, 3)]).toEqual([227, 202, 187])
    expect(transparentShare).toBe(1)
    // Alpha 0.25 is code 64: 241.2, 228.6 and 221.1.
    const faint = await decodePicture(await rgba(0.25).png().toBuffer(), LIMIT)
    expect([...faint.data.subarray(0, 3)]).toEqual([241, 229, 221])
  })

  test('16-bit and gray pictures with alpha alike', async () => {
    const deep = await decodePicture(await rgba(0.5).toColourspace('rgb16').png().toBuffer(), LIMIT)
    expect([...deep.data.subarray(0, 3)]).toEqual([227, 202, 187])
    const gray = await decodePicture(await rgba(0).toColourspace('b-w').png().toBuffer(), LIMIT)
    expect([...gray.data.subarray(0, 3)]).toEqual([255, 255, 255])
    expect(gray.transparentShare).toBe(1)
  })

  test('an alpha channel that hides nothing is opaque', async () => {
    const { data, transparentShare } = await decodePicture(await rgba(1).png().toBuffer(), LIMIT)
    expect(transparentShare).toBe(0)
    expect([...data.subarray(0, 3)]).toEqual(SKIN)
  })

  test('half transparent, half not', async () => {
    const left = await rgba(0).png().toBuffer()
    const file = await rgba(1)
      .extend({ left: 8, background: { r: 200, g: 150, b: 120, alpha: 0 } })
      .composite([{ input: left, left: 0, top: 0 }])
      .png()
      .toBuffer()
    expect((await decodePicture(file, LIMIT)).transparentShare).toBe(0.5)
  })
})

test('an uncompressed TIFF, private tags and all', async () => {
  const pixels = Buffer.alloc(30 * 20 * 3, Buffer.from(SKIN))
  const file = rgbTiff(30, 20, 6, pixels, [[40_000, 4, [1, 2, 3]]])
  const { data, width, height } = await decodePicture(file, LIMIT)
  expect([width, height]).toEqual([30, 20])
  expect(data.equals(pixels)).toBe(true)
})

test('a picture beyond the limit is refused', async () => {
  const file = await plain(SKIN, 100, 100).png().toBuffer()
  await expect(decodePicture(file, 9_999)).rejects.toThrow(/pixel limit/)
  await expect(decodePicture(file, 10_000)).resolves.toMatchObject({ width: 100 })
})

const cjpeg = debianTool('libjpeg-turbo-progs', 'cjpeg')

test.skipIf(!cjpeg)('JPEGs of another encoder: RGB, arithmetic, 4:1:1, progressive', async () => {
  const ppm = Buffer.concat([Buffer.from('P6\n16 16\n255\n'), Buffer.alloc(16 * 16 * 3, Buffer.from(SKIN))])
  const input = temporaryFile('a.ppm', ppm)
  for (const args of [['-rgb'], ['-arithmetic'], ['-sample', '4x1'], ['-progressive'], ['-quality', '5']]) {
    const file = execFileSync(cjpeg as string, [...args, input], { stdio: ['ignore', 'pipe', 'ignore'] })
    const { width, height } = await decodePicture(file, LIMIT)
    expect([width, height]).toEqual([16, 16])
  }
})
