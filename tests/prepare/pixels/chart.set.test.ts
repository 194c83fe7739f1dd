import { execFileSync } from 'node:child_process'
import { readFileSync } from 'node:fs'
import sharp from 'sharp'
import { describe, expect, test } from 'vitest'
import { deltaE00 } from '../../../src/color/ciede2000.ts'
import { pngWith } from '../../../src/prepare/containers/png.ts'
import { decodeMaster } from '../../../src/prepare/pixels/decode.ts'
import { resampled } from '../../../src/prepare/pixels/resample.ts'
import { targetSpace } from '../../../src/prepare/pixels/target-space.ts'
import { debianFile, debianTool } from '../../outside/debian.ts'
import { part } from '../../sets.ts'

const transicc = debianTool('liblcms2-utils', 'transicc')
const profile = (debianPackage: string, path: string) => debianFile(debianPackage, path)

/** Profiles that are not ours. */
const PROFILES = {
  sRGB: profile('icc-profiles-free', '/usr/share/color/icc/sRGB.icc'),
  'Adobe RGB (1998)': profile('icc-profiles-free', '/usr/share/color/icc/compatibleWithAdobeRGB1998.icc'),
  'Display P3': profile('argyll-ref', '/usr/share/color/argyll/ref/DisplayP3.icm'),
  'ProPhoto RGB': profile('colord-data', '/usr/share/color/icc/colord/ProPhotoRGB.icc'),
} as const
type Name = keyof typeof PROFILES
const NAMES = Object.keys(PROFILES).filter((name): name is Name => name in PROFILES)

/** 1,000 patches: ten steps of each channel, codes 0 to 255. */
const STEPS = Array.from({ length: 10 }, (_, n) => Math.round((255 * n) / 9))
const CHART = STEPS.flatMap((red) => STEPS.flatMap((green) => STEPS.map((blue) => [red, green, blue])))

/** Relative colorimetric and perceptual, with black point compensation, as transicc is told. */
const RELATIVE = ['-t', '1', '-b'] as const
const PERCEPTUAL = ['-t', '0', '-b'] as const

/** Colors through LittleCMS, from a profile to a profile or to L* a* b*. */
function littleCms(
  colors: readonly (readonly number[])[],
  from: string,
  to: string,
  intent: readonly string[] = RELATIVE,
): number[][] {
  const input = colors.map((color) => color.join(' ')).join('\n')
  const printed = execFileSync(transicc ?? '', ['-n', ...intent, '-i', from, '-o', to], {
    input: `${input}\n`,
    stdio: ['pipe', 'pipe', 'ignore'],
  })
  return printed
    .toString()
    .trim()
    .split('\n')
    .map((line) => line.trim().split(/\s+/).map(Number))
}

/** The chart as a master of 16 bits in a space, through the whole way to another one. */
async function ours(from: string, to: Name): Promise<number[][]> {
  const codes = Uint16Array.from(CHART.flat(), (code) => code * 257)
  // A PNG of 16 bits; the profile is put into it without a conversion.
  const bare = await sharp(codes, { raw: { width: 40, height: 25, channels: 3 } })
    .toColourspace('rgb16')
    .png()
    .toBuffer()
  const master = await decodeMaster(withProfile(bare, readFileSync(from)))
  const size = { widthPx: 40, heightPx: 25 }
  const { codes: out } = resampled(master, { leftPx: 0, topPx: 0, ...size }, size, targetSpace(to), 16)
  return CHART.map((_, n) => [...out.slice(3 * n, 3 * n + 3)].map((code) => code / 257))
}

function withProfile(png: Buffer, icc: Buffer): Buffer {
  const blocks = { icc, exif: Buffer.alloc(0), xmp: Buffer.alloc(0), iim: Buffer.alloc(0), ppi: null }
  return pngWith(png, { ...blocks, entries: { main: [], exif: [] } })
}

/** By how much colors differ, codes of a space by its profile: the mean and the most, ΔE00. */
function difference(
  own: readonly (readonly number[])[],
  theirs: readonly (readonly number[])[],
  space: string,
) {
  const [found = [], wanted = []] = [own, theirs].map((colors) => {
    const clipped = colors.map((color) => color.map((code) => Math.min(Math.max(code, 0), 255)))
    return littleCms(clipped, space, '*Lab').map(([L = 0, a = 0, b = 0]) => ({ L, a, b }))
  })
  const differences = found.map((lab, n) => deltaE00(lab, wanted[n] ?? lab))
  expect(differences).toHaveLength(own.length)
  return {
    mean: differences.reduce((sum, value) => sum + value, 0) / differences.length,
    most: Math.max(...differences),
  }
}

const cmyk = profile('libgs-common', '/usr/share/color/icc/ghostscript/default_cmyk.icc')

describe.skipIf(!transicc || Object.values(PROFILES).includes(null))(
  '1,000 patches, against LittleCMS',
  () => {
    const pairs = NAMES.flatMap((from) => (['sRGB', 'Display P3'] as const).map((to) => [from, to] as const))
    test.each(part(pairs, 5))('%s to %s: at most 1 ΔE00 in the mean and 3 at most', async (from, to) => {
      const [source, target] = [PROFILES[from] ?? '', PROFILES[to] ?? '']
      const own = await ours(source, to)
      for (const intent of [RELATIVE, PERCEPTUAL]) {
        const { mean, most } = difference(own, littleCms(CHART, source, target, intent), target)
        expect(mean).toBeLessThanOrEqual(1)
        expect(most).toBeLessThanOrEqual(3)
      }
    })

    test.skipIf(!cmyk)('CMYK, whose profile has tables, to sRGB, perceptually', async () => {
      const chart = Uint8Array.from(CHART.flat())
      const master = await sharp(chart, { raw: { width: 40, height: 25, channels: 3 } })
        .withIccProfile(cmyk ?? '')
        .toColourspace('cmyk')
        .tiff({ compression: 'lzw' })
        .toBuffer()
      const inks = await sharp(master).pipelineColourspace('cmyk').toColourspace('cmyk').raw().toBuffer()
      const patches = CHART.map((_, n) => [...inks.subarray(4 * n, 4 * n + 4)].map((ink) => ink / 2.55))
      const { pixels, isTabled } = await decodeMaster(master)
      expect(isTabled).toBe(true)
      const own = CHART.map((_, n) => [...pixels.subarray(3 * n, 3 * n + 3)])
      const target = PROFILES.sRGB ?? ''
      const { mean, most } = difference(own, littleCms(patches, cmyk ?? '', target, PERCEPTUAL), target)
      expect(mean).toBeLessThanOrEqual(1)
      expect(most).toBeLessThanOrEqual(3)
    })
  },
)
