import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import sharp from 'sharp'
import { describe, expect, test } from 'vitest'
import { identify } from '../../../../src/measure/file/icc/identity.ts'
import { readProfile } from '../../../../src/measure/file/icc/profile.ts'
import { debianFile } from '../../../outside/debian.ts'
import { packageFolder } from '../../../outside/portraits.ts'
import { plain } from '../../samples.ts'
import { BT709_CURVE, COLORANTS, curv, gamma, para, SRGB_CURVE, writeProfile } from './icc-writer.ts'

function identityOf(icc: Buffer): string {
  const model = readProfile(icc)?.model
  return model ? identify(model) : 'no matrix'
}

/** A table of sRGB's curve in 16 bits, as profiles of version 2 carry it. */
const table = (size: number) =>
  curv(
    ...Array.from({ length: size }, (_, n) => {
      const x = n / (size - 1)
      return Math.round(65535 * (x <= 0.04045 ? x / 12.92 : ((x + 0.055) / 1.055) ** 2.4))
    }),
  )

describe('by content', () => {
  const adobe = { colorants: COLORANTS.adobe, curves: [gamma(563 / 256)] }

  test.each([
    ['sRGB by formula', writeProfile({ version: 4 }), 'sRGB'],
    ['sRGB by a table of 1024', writeProfile({ curves: [table(1024)] }), 'sRGB'],
    ['sRGB by a table of 26', writeProfile({ curves: [table(26)] }), 'sRGB'],
    ['sRGB under another name', writeProfile({ name: 'D65' }), 'sRGB'],
    ['Adobe RGB (1998)', writeProfile(adobe), 'Adobe RGB (1998)'],
    [
      "Adobe RGB (1998) under sRGB's name",
      writeProfile({ ...adobe, name: 'sRGB IEC61966-2.1' }),
      'Adobe RGB (1998)',
    ],
    ['Display P3', writeProfile({ colorants: COLORANTS.p3 }), 'Display P3'],
    ['ProPhoto', writeProfile({ colorants: COLORANTS.prophoto, curves: [gamma(1.8)] }), 'ProPhoto RGB'],
    [
      'ProPhoto with its straight toe',
      writeProfile({ colorants: COLORANTS.prophoto, curves: [para(3, 1.8, 1, 0, 1 / 16, 1 / 32)] }),
      'ProPhoto RGB',
    ],
  ])('%s', (_, icc, identity) => {
    expect(identityOf(icc)).toBe(identity)
  })

  test.each([
    ["sRGB's colorants with the curve of ITU-R BT.709", writeProfile({ curves: [BT709_CURVE] })],
    ["sRGB's colorants, linear", writeProfile({ curves: [curv()] })],
    ["sRGB's colorants with a gamma of 2.2", writeProfile({ curves: [gamma(2.2)] })],
    ['one curve of three another', writeProfile({ curves: [SRGB_CURVE, gamma(1.8), SRGB_CURVE] })],
    ['ProPhoto, linear', writeProfile({ colorants: COLORANTS.prophoto, curves: [curv()] })],
    ["Adobe RGB's colorants with sRGB's curve", writeProfile({ ...adobe, curves: [SRGB_CURVE] })],
    [
      'red and green swapped',
      writeProfile({ colorants: [COLORANTS.srgb[1], COLORANTS.srgb[0], COLORANTS.srgb[2]] }),
    ],
    ['a curve that is no number', writeProfile({ curves: [para(1, 0.5, 0, -1)] })],
  ])('other: %s', (_, icc) => {
    expect(identityOf(icc)).toBe('other')
  })
})

describe('margins', () => {
  const shifted = (by: number) => COLORANTS.srgb.map(([x, y, z], n) => [x, n === 1 ? y + by : y, z] as const)

  test('a colorant may be 0.0018 off, not 0.0023', () => {
    // The reference itself is within 0.0002 of the published numbers.
    expect(identityOf(writeProfile({ colorants: shifted(0.0018) }))).toBe('sRGB')
    expect(identityOf(writeProfile({ colorants: shifted(0.0023) }))).toBe('other')
  })

  test('the curve may be 0.004 off, not 0.006', () => {
    const raised = (by: number) => para(4, 2.4, 1 / 1.055, 0.055 / 1.055, 1 / 12.92, 0.04045, by, 0)
    expect(identityOf(writeProfile({ curves: [raised(0.004)] }))).toBe('sRGB')
    expect(identityOf(writeProfile({ curves: [raised(0.006)] }))).toBe('other')
  })
})

const ICC = '/usr/share/color/icc'
const ARGYLL = '/usr/share/color/argyll/ref'

// Real profiles. Each is what its maker's documentation says it is; the three of colord that follow sRGB carry a
// monitor calibration (`vcgt`), which says nothing of the picture's colors.
const REAL: readonly (readonly [debianPackage: string, path: string, identity: string])[] = [
  ['icc-profiles-free', `${ICC}/sRGB.icc`, 'sRGB'],
  ['argyll-ref', `${ARGYLL}/sRGB.icm`, 'sRGB'],
  ['colord-data', `${ICC}/colord/sRGB.icc`, 'sRGB'],
  ['colord-data', `${ICC}/colord/Gamma5000K.icc`, 'sRGB'],
  ['colord-data', `${ICC}/colord/Gamma6500K.icc`, 'sRGB'],
  ['colord-data', `${ICC}/colord/Bluish.icc`, 'sRGB'],
  ['libgs-common', `${ICC}/ghostscript/srgb.icc`, 'sRGB'],
  ['icc-profiles-free', `${ICC}/compatibleWithAdobeRGB1998.icc`, 'Adobe RGB (1998)'],
  ['colord-data', `${ICC}/colord/AdobeRGB1998.icc`, 'Adobe RGB (1998)'],
  ['argyll-ref', `${ARGYLL}/ClayRGB1998.icm`, 'Adobe RGB (1998)'],
  ['libgs-common', `${ICC}/ghostscript/a98.icc`, 'Adobe RGB (1998)'],
  ['argyll-ref', `${ARGYLL}/DisplayP3.icm`, 'Display P3'],
  ['argyll-ref', `${ARGYLL}/ProPhoto.icm`, 'ProPhoto RGB'],
  ['colord-data', `${ICC}/colord/ProPhotoRGB.icc`, 'ProPhoto RGB'],
  ['libgs-common', `${ICC}/ghostscript/rommrgb.icc`, 'ProPhoto RGB'],
  ['argyll-ref', `${ARGYLL}/ProPhotoLin.icm`, 'other'],
  ['argyll-ref', `${ARGYLL}/Rec709.icm`, 'other'],
  ['argyll-ref', `${ARGYLL}/SMPTE431_P3.icm`, 'other'],
  ['colord-data', `${ICC}/colord/Rec709.icc`, 'other'],
  ['colord-data', `${ICC}/colord/SwappedRedAndGreen.icc`, 'other'],
  ['colord-data', `${ICC}/colord/AppleRGB.icc`, 'other'],
  ['colord-data', `${ICC}/colord/WideGamutRGB.icc`, 'other'],
  ['libgs-common', `${ICC}/ghostscript/scrgb.icc`, 'other'],
  ['libgs-common', `${ICC}/ghostscript/esrgb.icc`, 'other'],
  ['libgs-common', `${ICC}/ghostscript/default_gray.icc`, 'no matrix'],
  ['libgs-common', `${ICC}/ghostscript/default_cmyk.icc`, 'no matrix'],
  ['libgs-common', `${ICC}/ghostscript/lab.icc`, 'no matrix'],
]

// Those of Debian's packages that are a known space; each other one there is none.
const KNOWN = new Map(
  REAL.flatMap(([, path, identity]) => (identity.startsWith('o') ? [] : [[path, identity]])),
)
const ALSO_KNOWN: Readonly<Record<string, string>> = {
  [`${ICC}/colord/Gamma5500K.icc`]: 'sRGB',
  [`${ICC}/ghostscript/default_rgb.icc`]: 'sRGB',
}

describe('real profiles', () => {
  for (const [debianPackage, path, identity] of REAL) {
    const file = debianFile(debianPackage, path)
    test.skipIf(!file)(`${path} is ${identity}`, () => {
      expect(identityOf(readFileSync(file as string))).toBe(identity)
    })
  }

  test('no other profile of the same packages is taken for one that is known', () => {
    const folders = new Set(REAL.map(([, path]) => dirname(path)).filter(existsSync))
    const unlisted = [...folders].flatMap((folder) =>
      readdirSync(folder)
        .filter((name) => /\.ic[cm]$/.test(name))
        .map((name) => join(folder, name))
        .filter((path) => !KNOWN.has(path)),
    )
    expect(folders.size === 0 || unlisted.length >= 35).toBe(true)
    for (const path of unlisted) {
      const expected = ALSO_KNOWN[path] ?? expect.stringMatching(/^(other|no matrix)$/)
      expect(identityOf(readFileSync(path)), path).toEqual(expected)
    }
  })

  // The library names its own profiles: sharp, withIccProfile.
  test.each([
    ['p3', 'Display P3'],
    ['srgb', 'sRGB'],
  ])('that which the picture library embeds as %s', async (name, identity) => {
    const { icc } = await sharp(await plain([200, 90, 60]).withIccProfile(name).jpeg().toBuffer()).metadata()
    expect(identityOf(icc as Buffer)).toBe(identity)
  })

  // By the names that they carry; c2 is an sRGB of few bytes that a social network embeds (from memory), Display a monitor.
  test('those in photographs of npm packages', async () => {
    const expected: Readonly<Record<string, string>> = {
      'sRGB IEC61966-2.1': 'sRGB',
      c2: 'sRGB',
      'Adobe RGB (1998)': 'Adobe RGB (1998)',
      Display: 'other',
    }
    const found = new Map<string, string>()
    for (const name of ['material-kit', 'soft-ui-design-system', 'argon-design-system-free']) {
      const folder = join(await packageFolder(name), 'assets', 'img')
      for (const file of readdirSync(folder, { recursive: true, encoding: 'utf8' })) {
        if (!/\.(jpe?g|png)$/i.test(file)) continue
        const { icc } = await sharp(join(folder, file)).metadata()
        const profile = icc && readProfile(icc)
        if (profile) found.set(profile.name ?? '', profile.model ? identify(profile.model) : 'no matrix')
      }
    }
    expect(Object.fromEntries(found)).toEqual(expected)
  })
})
