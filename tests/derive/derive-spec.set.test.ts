import { beforeAll, describe, expect, test } from 'vitest'
import { SITTERS } from '../../examples/drawing/sitters.ts'
import type { Spec } from '../../src/brand-spec/spec.ts'
import { deriveSpec } from '../../src/derive/derive-spec.ts'
import { measurePicture } from '../../src/measure/picture.ts'
import type { Measurements } from '../../src/measure/schema/measurements.ts'
import { drawnPortrait } from '../drawn.ts'
import { seeded } from '../random.ts'
import { GOOD } from '../rules/judging/cases.ts'
import { part } from '../sets.ts'
import { bandOf, loaded, type Range } from './derived.ts'

const BRAND = 'Osprey Lane Veterinary Group'
const SEEDS = part(
  Array.from({ length: 20 }, (_, i) => i + 1),
  10,
)
const PORTRAITS = 6

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
    const { pixels, widthPx, heightPx } = await drawnPortrait(sitter.look, {
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

describe(`${SEEDS.length} random brand specs, a drawn delivery to each`, () => {
  const derived: { truth: Truth; spec: Spec }[] = []

  beforeAll(async () => {
    for (const seed of SEEDS) {
      const truth = brandSpec(seed)
      const { text } = deriveSpec(await delivery(truth, seed), BRAND, new Map())
      derived.push({ truth, spec: loaded(text) })
    }
  })

  test.each([
    ['headroom', (truth: Truth) => truth.headroom],
    ['head-height', (truth: Truth) => truth.headHeight],
    ['background-lightness', (truth: Truth) => truth.luminance],
  ] as const)('%s: every band holds the truth, and none is too wide', (rule, pick) => {
    expect(derived).toHaveLength(SEEDS.length)
    for (const [index, { truth, spec }] of derived.entries()) {
      const [{ min, max }, band] = [pick(truth), bandOf(spec, rule)]
      const what = `spec ${SEEDS[index]}: ${min} to ${max}, derived ${band.min} to ${band.max}`
      expect(band.min, what).toBeLessThanOrEqual(min)
      expect(band.max, what).toBeGreaterThanOrEqual(max)
      expect(band.max - band.min, what).toBeLessThanOrEqual(1.5 * (max - min) + 1)
    }
  })
})
