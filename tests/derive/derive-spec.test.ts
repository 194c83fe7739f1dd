import { beforeAll, describe, expect, test } from 'vitest'
import { drawPortrait } from '../../examples/drawing/portrait.ts'
import { SITTERS } from '../../examples/drawing/sitters.ts'
import { loadSpec } from '../../src/brand-spec/load.ts'
import type { Spec } from '../../src/brand-spec/spec.ts'
import { deriveSpec } from '../../src/derive/derive-spec.ts'
import { measurePicture } from '../../src/measure/picture.ts'
import type { Head, Measurements } from '../../src/measure/schema/measurements.ts'
import { ALL_RULES } from '../../src/rules/delivery-index.ts'
import { limitsOf } from '../../src/rules/judging/band.ts'
import { seeded } from '../random.ts'
import { GOOD } from '../rules/judging/cases.ts'

const BRAND = 'Osprey Lane Veterinary Group'
const SPECS = 20
const PORTRAITS = 6

interface Range {
  readonly min: number
  readonly max: number
}
interface Truth {
  readonly headroom: Range
  readonly headHeight: Range
  readonly luminance: Range
}

/** Bands in half percents, 3 to 6 wide, as clients write them. */
function brandSpec(seed: number): Truth {
  const random = seeded(seed)
  const half = (low: number, high: number) => Math.round(2 * (low + random() * (high - low))) / 2
  const range = (low: number, high: number, least: number, most: number): Range => {
    const min = half(low, high)
    return { min, max: min + half(least, most) }
  }
  return { headroom: range(5, 9, 3, 6), headHeight: range(42, 48, 3, 6), luminance: range(84, 92, 3, 5) }
}

/** A delivery that uses its bands from end to end; which sitter gets which place in them is chance. */
async function delivery(truth: Truth, seed: number): Promise<Measurements[]> {
  const random = seeded(seed + 1000)
  const places = () =>
    Array.from({ length: PORTRAITS }, (_, i) => ({ at: i / (PORTRAITS - 1), key: random() }))
      .sort((a, b) => a.key - b.key)
      .map(({ at }) => at)
  const [headroom, headHeight, luminance] = [places(), places(), places()]
  // Everybody, bearded and white-haired too: their chins and crowns are measured less well, and that counts.
  const sitters = SITTERS
  const files: Measurements[] = []
  for (let i = 0; i < PORTRAITS; i++) {
    const within = ({ min, max }: Range, at = 0) => min + at * (max - min)
    const crownY = within(truth.headroom, headroom[i]) / 100
    const sitter = sitters[(seed * 3 + i) % sitters.length]
    if (!sitter) throw new Error('There are no sitters.')
    const { pixels, widthPx, heightPx } = await drawPortrait(sitter.look, {
      widthPx: 288,
      heightPx: 360,
      placement: { crownY, chinY: crownY + within(truth.headHeight, headHeight[i]) / 100 },
      backdrop: { color: { L: within(truth.luminance, luminance[i]), a: 0, b: 0 } },
      key: { side: 'left', ratioStops: 0.5 },
      noise: 0.6,
    })
    const picture = { data: pixels, width: widthPx, height: heightPx, transparentShare: 0 }
    const {
      background = null,
      face = null,
      head = null,
    } = await measurePicture(picture, ['background', 'face', 'head'])
    const file = `${sitter.family}_${sitter.given}.jpg`
    files.push({ ...GOOD, file, widthPx, heightPx, background, face, head })
  }
  return files
}

function loaded(text: string): Spec {
  const spec = loadSpec(text, 'derived.yaml', ALL_RULES)
  if ('problems' in spec)
    throw new Error(`${spec.problems.map(({ message }) => message).join('\n')}\n${text}`)
  return spec.spec
}

function bandOf(spec: Spec, rule: string): Range {
  return limitsOf(spec.settings[rule] as Parameters<typeof limitsOf>[0])
}

describe(`${SPECS} random brand specs, a drawn delivery to each`, () => {
  const derived: { truth: Truth; spec: Spec }[] = []

  beforeAll(async () => {
    for (let seed = 1; seed <= SPECS; seed++) {
      const truth = brandSpec(seed)
      const { text } = deriveSpec(await delivery(truth, seed), BRAND, new Map())
      derived.push({ truth, spec: loaded(text) })
    }
  }, 600_000)

  test.each([
    ['headroom', (truth: Truth) => truth.headroom],
    ['head-height', (truth: Truth) => truth.headHeight],
    ['background-lightness', (truth: Truth) => truth.luminance],
  ] as const)('%s: every band holds the truth, and none is too wide', (rule, pick) => {
    expect(derived).toHaveLength(SPECS)
    for (const [index, { truth, spec }] of derived.entries()) {
      const [{ min, max }, band] = [pick(truth), bandOf(spec, rule)]
      const what = `spec ${index + 1}: ${min} to ${max}, derived ${band.min} to ${band.max}`
      expect(band.min, what).toBeLessThanOrEqual(min)
      expect(band.max, what).toBeGreaterThanOrEqual(max)
      expect(band.max - band.min, what).toBeLessThanOrEqual(1.5 * (max - min) + 1)
    }
  })
})

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

  test('an outlier is named and does not widen the band', () => {
    const files = approved(12, (i) => withHead({ headroomPct: i === 3 ? 25 : 8 + 0.1 * i }))
    const { text, outliers } = deriveSpec(files, BRAND, new Map())
    expect(outliers.get('Familyd_Given.jpg')).toEqual(['headroom'])
    expect(bandOf(loaded(text), 'headroom')).toEqual({ min: 7.5, max: 9.5 })
  })

  test('what could not be measured in enough portraits is left out with the reason', () => {
    const files = approved(6, () => withHead({ confidence: 0.1 }))
    const { text } = deriveSpec(files, BRAND, new Map())
    expect(text).toContain('# headroom was left out: it could be measured in 0 of 6 portraits')
    expect(loaded(text).settings.headroom).toBeUndefined()
  })

  test('a crown in doubt counts when it is in line with the others, and is told', () => {
    const doubts = { confidence: 0.4, doubts: ['crown-merges-with-backdrop' as const] }
    const files = approved(7, (i) => withHead({ headroomPct: 6 + i, ...(i === 6 && doubts) }))
    const { text, outliers } = deriveSpec(files, BRAND, new Map())
    expect(bandOf(loaded(text), 'headroom')).toEqual({ min: 5, max: 13 })
    expect(text).toContain('6 to 12 % in 7 of 7, 1 in doubt (the top of the head is hardly darker or lighter')
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
      '# headroom was left out: it could be measured in 4 of 7 portraits (the top of the head is hardly darker or lighter than the backdrop behind it), and 5 are needed',
    )
    const files = approved(7, (i) =>
      withHead({
        headroomPct: 6 + i,
        ...(i === 6 && { confidence: 0.4, doubts: ['crown-merges-with-backdrop', 'backdrop-not-plain'] }),
      }),
    )
    expect(deriveSpec(files, BRAND, new Map()).text).toContain(
      '6 to 11 % in 6 of 7, 1 could not be measured (the top of the head is hardly darker or lighter than the backdrop behind it; the backdrop is not plain enough',
    )
  })

  test('head heights with the chin under a beard are told with their error', () => {
    const files = approved(6, (i) =>
      withHead({ headHeightPct: 44 + 0.5 * i, headHeightErrorPct: i < 2 ? 1.1 + 0.1 * i : 0 }),
    )
    const { text } = deriveSpec(files, BRAND, new Map())
    expect(text).toContain('44 to 46.5 % in 6 of 6, 2 with the chin under a beard, good to 1.2 %')
  })

  test('hostile names and brands stay text', () => {
    const files = approved(6).map((one, i) => ({ ...one, file: `"}\n# x: {y}/${'abcdef'[i]}_b.jpg` }))
    const { text } = deriveSpec(files, 'A "quoted" brand: #1\nversion: 9', new Map())
    expect(loaded(text)).toMatchObject({ brand: 'A "quoted" brand: #1\nversion: 9', version: 1 })
  })
})
