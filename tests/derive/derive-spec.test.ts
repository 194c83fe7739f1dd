import { describe, expect, test } from 'vitest'
import { deriveSpec } from '../../src/derive/derive-spec.ts'
import type { Head, Measurements } from '../../src/measure/schema/measurements.ts'
import { GOOD } from '../rules/judging/cases.ts'
import { bandOf, loaded } from './derived.ts'

const BRAND = 'Osprey Lane Veterinary Group'

describe('what is proposed and what is left out', () => {
  const withHead = (changes: Partial<Head>): Partial<Measurements> =>
    GOOD.head ? { head: { ...GOOD.head, ...changes } } : {}
  const approved = (n: number, change: (i: number) => Partial<Measurements> = () => ({})): Measurements[] =>
    Array.from({ length: n }, (_, i) => ({
      ...GOOD,
      file: `Family${'abcdefghijkl'[i]}_Given.jpg`,
      ...change(i),
    }))

  test('two sizes in two folders are two deliverables', () => {
    const files = ['print', 'web'].flatMap((folder, k) =>
      approved(6).map((one) => ({
        ...one,
        file: `${folder}/${one.file}`,
        ...(k === 1 && { widthPx: 800, heightPx: 800 }),
      })),
    )
    const spec = loaded(deriveSpec(files, BRAND, new Map()).text)
    expect(Object.keys(spec.deliverables)).toEqual(['print', 'web'])
    expect(spec.deliverables.web?.['pixel-size']).toEqual({ width: 800, height: 800 })
    expect(spec.deliverables.print?.['aspect-ratio']).toBe('4:5')
    expect(spec.naming?.text).toBe('{deliverable}/{family}_Given.jpg')
  })

  test.each([
    [
      'in folders',
      (deliverable: string, name: string) => `${deliverable}/${name}`,
      '{deliverable}/{family}_Given.jpg',
    ],
    [
      'in names',
      (deliverable: string, name: string) => `${deliverable}_${name}`,
      '{deliverable}_{family}_Given.jpg',
    ],
  ])('one file of an odd size does not hide the deliverables that stand %s', (_, path, pattern) => {
    const files = ['print', 'web'].flatMap((deliverable, k) =>
      approved(6).map((one, i) => ({
        ...one,
        file: path(deliverable, one.file),
        ...(k === 1 && (i === 2 ? { widthPx: 500, heightPx: 500 } : { widthPx: 800, heightPx: 800 })),
      })),
    )
    const { text, naming, outliers } = deriveSpec(files, BRAND, new Map())
    const spec = loaded(text)
    expect(spec.naming?.text).toBe(pattern)
    expect(Object.keys(spec.deliverables)).toEqual(['print', 'web'])
    expect(spec.deliverables.web?.['pixel-size']).toEqual({ width: 800, height: 800 })
    expect(naming?.others).toEqual([])
    expect([...outliers]).toEqual([[path('web', 'Familyc_Given.jpg'), ['pixel-size']]])
  })

  test('black-and-white portraits that were approved are allowed', () => {
    const asked = (colorless: number) => {
      const files = approved(6, (i) => (i < colorless ? { peakChromaC: 0 } : {}))
      return loaded(deriveSpec(files, BRAND, new Map()).text).settings['color-space']
    }
    expect(asked(0)).toBe('sRGB')
    expect(asked(1)).toEqual({ profile: 'sRGB', 'allow-monochrome': true })
    expect(asked(6)).toEqual({ profile: 'sRGB', 'allow-monochrome': true })
  })

  test('an outlier is named and does not widen the band', () => {
    const files = approved(12, (i) => withHead({ headroomPct: i === 3 ? 25 : 8 + 0.1 * i }))
    const { text, outliers } = deriveSpec(files, BRAND, new Map())
    expect(outliers.get('Familyd_Given.jpg')).toEqual(['headroom'])
    expect(bandOf(loaded(text), 'headroom')).toEqual({ min: 7.5, max: 9.5 })
  })

  test('what could not be measured in enough portraits is left out with the reason', () => {
    const files = approved(6, () => withHead({ confidence: 0.1 }))
    const { text } = deriveSpec(files, BRAND, new Map())
    expect(text).toContain('# headroom was left out: it was measured in 0 of 6 portraits')
    expect(loaded(text).settings.headroom).toBeUndefined()
  })

  test('a crown in doubt counts when it is in line with the others, and is told', () => {
    const doubts = { confidence: 0.4, doubts: ['crown-merges-with-backdrop' as const] }
    const files = approved(7, (i) => withHead({ headroomPct: 6 + i, ...(i === 6 && doubts) }))
    const { text, outliers } = deriveSpec(files, BRAND, new Map())
    expect(bandOf(loaded(text), 'headroom')).toEqual({ min: 5, max: 13 })
    expect(text).toContain('6 to 12 % in 7 of 7, 1 uncertain (loose hair, or hair much like the backdrop,')
    expect(outliers.size).toBe(0)
  })

  test('a crown in doubt that is not in line is left out and named', () => {
    const doubts = { confidence: 0.4, doubts: ['crown-merges-with-backdrop' as const] }
    const files = approved(7, (i) =>
      withHead({ headroomPct: i === 6 ? 25 : 6 + 0.5 * i, ...(i === 6 && doubts) }),
    )
    const { text, outliers } = deriveSpec(files, BRAND, new Map())
    expect(bandOf(loaded(text), 'headroom')).toEqual({ min: 5.5, max: 9 })
    expect(outliers.get('Familyg_Given.jpg')).toContain('headroom')
  })

  test('doubtful crowns do not make up for sure ones, and other doubts never count', () => {
    const few = approved(7, (i) =>
      withHead(i < 4 ? {} : { confidence: 0.4, doubts: ['crown-merges-with-backdrop'] }),
    )
    expect(deriveSpec(few, BRAND, new Map()).text).toContain(
      '# headroom was left out: it was measured in 4 of 7 portraits (loose hair, or hair much like the backdrop, leaves the top of the head unclear); 5 are needed',
    )
    const files = approved(7, (i) =>
      withHead({
        headroomPct: 6 + i,
        ...(i === 6 && { confidence: 0.4, doubts: ['crown-merges-with-backdrop', 'backdrop-not-plain'] }),
      }),
    )
    expect(deriveSpec(files, BRAND, new Map()).text).toContain(
      '6 to 11 % in 6 of 7, 1 could not be measured (loose hair, or hair much like the backdrop, leaves the top of the head unclear; the backdrop is not plain enough',
    )
  })

  test('head heights are told with their largest error', () => {
    const files = approved(6, (i) =>
      withHead({ headHeightPct: 44 + 0.5 * i, headHeightErrorPct: i < 2 ? 1.1 + 0.1 * i : 0 }),
    )
    const { text } = deriveSpec(files, BRAND, new Map())
    expect(text).toContain('44 to 46.5 % in 6 of 6, good to 1.2 %')
  })

  test('what hurts when it is published is in every derived spec', () => {
    const spec = loaded(deriveSpec(approved(6), BRAND, new Map()).text)
    expect(spec.settings).toMatchObject({
      'metadata-forbidden': ['location', 'camera-serial', 'lens-serial'],
      'stale-preview': true,
      'lens-glare': { max: 3 },
      'duplicate-picture': 'none',
    })
  })

  test('the sharpness of the eyes is proposed for the largest files alone', () => {
    const sharp = GOOD.finish?.focus && { ...GOOD.finish, focus: { ...GOOD.finish.focus, eyePx: 1.2 } }
    const files = ['print', 'web'].flatMap((folder, k) =>
      approved(6, () => (sharp ? { finish: sharp } : {})).map((one) => ({
        ...one,
        file: `${folder}/${one.file}`,
        ...(k === 1 && { widthPx: 800, heightPx: 800 }),
      })),
    )
    const spec = loaded(deriveSpec(files, BRAND, new Map()).text)
    expect(spec.deliverables.print?.['eye-focus']).toEqual({ max: 1.5 })
    expect(spec.deliverables.web?.['eye-focus']).toBeUndefined()
  })

  const textured = (skinTexturePct: number): Partial<Measurements> =>
    GOOD.finish ? { finish: { ...GOOD.finish, skinTexturePct } } : {}

  test('usual limits are proposed where nearly all pass them, and who does not is named', () => {
    const files = approved(12, (i) => textured(i === 3 ? 0.1 : 0.5))
    const { text, outliers } = deriveSpec(files, BRAND, new Map())
    expect(loaded(text).settings).toMatchObject({
      'background-plain': 'required',
      'cutout-fringe': { max: 40 },
      'cutout-holes': 'none',
      'skin-texture': { min: 0.25 },
      'sharpening-halo': { max: 25 },
    })
    expect(text).toContain('skin-texture: { min: 0.25 } # 11 of 12')
    expect([...outliers]).toEqual([['Familyd_Given.jpg', ['skin-texture']]])
  })

  test('a usual limit that several miss, or of which too little can be told, is left out with the reason', () => {
    const smooth = deriveSpec(
      approved(12, (i) => textured(i < 3 ? 0.1 : 0.5)),
      BRAND,
      new Map(),
    )
    expect(loaded(smooth.text).settings['skin-texture']).toBeUndefined()
    expect(smooth.text).toContain(
      '# skin-texture: { min: 0.25 } was left out: of 12 portraits 9 pass it, 3 fail it',
    )
    const unknown = approved(12, (i) => (i < 3 ? { background: null } : {}))
    expect(deriveSpec(unknown, BRAND, new Map()).text).toContain(
      "# cutout-fringe: { max: 40 } was left out: of 12 portraits 9 pass it, it can't be told of 3",
    )
  })

  test('what only the largest files show is proposed for those alone', () => {
    const files = ['print', 'web'].flatMap((folder, k) =>
      approved(6).map((one) => ({
        ...one,
        file: `${folder}/${one.file}`,
        ...(k === 1 && { widthPx: 800, heightPx: 800 }),
      })),
    )
    const { deliverables } = loaded(deriveSpec(files, BRAND, new Map()).text)
    for (const rule of ['skin-texture', 'sharpening-halo']) {
      expect(deliverables.print?.[rule]).toBeDefined()
      expect(deliverables.web?.[rule]).toBeUndefined()
    }
  })

  test('the margin of a small headroom does not reach beyond the frame', () => {
    const files = approved(6, (i) => withHead({ headroomPct: 0.1 * i }))
    expect(bandOf(loaded(deriveSpec(files, BRAND, new Map()).text), 'headroom')?.min).toBe(0)
  })

  test('72 ppi, which stands where nobody chose a resolution, is not asked for; 300 is', () => {
    const withPpi = (ppi: number | null) =>
      deriveSpec(
        approved(6, () => ({ ppi })),
        BRAND,
        new Map(),
      ).text
    expect(loaded(withPpi(72)).settings.resolution).toBeUndefined()
    expect(withPpi(72)).toContain('# resolution was left out: 72 ppi is what programs write')
    expect(loaded(withPpi(300)).settings.resolution).toEqual({ ppi: 300 })
    expect(withPpi(null)).toContain('# resolution was left out: no portrait states it')
  })

  test('a JPEG quality that all have is told as one', () => {
    expect(
      deriveSpec(
        approved(6, () => ({})),
        BRAND,
        new Map(),
      ).text,
    ).toMatch(/# JPEG quality \d+$/m)
  })

  test.each([
    [100, 90],
    [93, 90],
    [87, 85],
  ])('of a JPEG quality of %d, at least %d is asked', (quality, min) => {
    const files = approved(6, () => ({ jpeg: GOOD.jpeg && { ...GOOD.jpeg, quality } }))
    expect(loaded(deriveSpec(files, BRAND, new Map()).text).settings.compression).toEqual({
      quality: { min },
    })
  })

  test('hostile names and brands stay text', () => {
    const files = approved(6).map((one, i) => ({ ...one, file: `"}\n# x: {y}/${'abcdef'[i]}_b.jpg` }))
    const { text } = deriveSpec(files, 'A "quoted" brand: #1\nversion: 9', new Map())
    expect(loaded(text)).toMatchObject({ brand: 'A "quoted" brand: #1\nversion: 9', version: 1 })
  })
})
