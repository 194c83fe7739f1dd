import { Ajv } from 'ajv'
import { describe, expect, test } from 'vitest'
import type { Spec } from '../../src/brand-spec/spec.ts'
import { judgeFile } from '../../src/judge/judge.ts'
import { Report } from '../../src/judge/report.ts'
import { RULES } from '../../src/rules/index.ts'
import { measuredAt, PLACE, type Place } from '../framing/cases.ts'
import { GOOD_NAME, head } from '../rules/judging/cases.ts'
import { reportOn, SPEC } from './sample.ts'

const WIDE: Place = { ...PLACE, crown: 600, chin: 1980, eyeY: 1440, eyeX: 1400 }

function judged(place: Place, changes: Partial<Spec>, measuredChanges = {}) {
  const spec: Spec = { ...SPEC, settings: {}, deliverables: {}, advisory: [], ...changes }
  const subject = { measured: { ...measuredAt(place), ...measuredChanges }, name: GOOD_NAME }
  return judgeFile(subject, spec, RULES)
}
const of = (outcomes: ReturnType<typeof judged>, rule: string) => outcomes.find((each) => each.rule === rule)

describe('the crop in outcomes', () => {
  const settings = {
    'aspect-ratio': '4:5',
    'pixel-size': { width: 1200, height: 1500 },
    headroom: { min: 6, max: 12 },
    centering: { max: 2 },
    'file-size': { max: '1 kB' },
  }

  test('the same for every rule on the framing that fails, and for no other', () => {
    const outcomes = judged(WIDE, { settings })
    const failed = outcomes.filter(({ verdict }) => verdict === 'fail').map(({ rule }) => rule)
    expect(failed).toEqual(['file-size', 'pixel-size', 'headroom', 'centering'])
    const crops = ['pixel-size', 'headroom', 'centering'].map((rule) => of(outcomes, rule)?.crop)
    expect(crops[0]).toBeDefined()
    expect(new Set(crops.map((crop) => JSON.stringify(crop))).size).toBe(1)
    expect(of(outcomes, 'headroom')?.fix).toMatch(/^Crop to \d+ x \d+ px .*, then scale to 1200 x 1500 px\.$/)
    expect(of(outcomes, 'file-size')).not.toHaveProperty('crop')
    expect(of(outcomes, 'aspect-ratio')).not.toHaveProperty('crop')
  })

  test('the options of the deliverable count', () => {
    const changes = { settings: { headroom: { min: 20, max: 30 } }, deliverables: { print: settings } }
    const { crop } = of(judged(WIDE, changes), 'headroom') ?? {}
    expect(crop && (600 - crop.topPx) / crop.heightPx).toBeLessThanOrEqual(0.12)
  })

  test('what is switched off does not bind', () => {
    const off = { ...settings, 'pixel-size': false, 'aspect-ratio': false, centering: false }
    expect(of(judged(WIDE, { settings: off }), 'headroom')?.crop).toMatchObject({ widthPx: 2400 })
  })

  test('a tilt that is asked and missed: level first', () => {
    const outcomes = judged({ ...WIDE, tiltDeg: 6 }, { settings: { ...settings, tilt: { max: 2 } } })
    expect(of(outcomes, 'headroom')?.fix).toMatch(/^Level the head first/)
    expect(of(outcomes, 'tilt')?.fix).toMatch(/^Rotate the picture counterclockwise/)
    expect(of(outcomes, 'tilt')).not.toHaveProperty('crop')
  })

  test('what can’t be met and is only advisory gives way', () => {
    // Headroom and a head of that size put the eyes lower than 20 %.
    const with20 = { ...settings, 'head-height': { min: 42, max: 52 }, 'eye-line': { max: 20 } }
    const place = { ...WIDE, eyeX: 1300 }
    const binding = judged(place, { settings: with20 })
    expect(of(binding, 'headroom')).not.toHaveProperty('crop')
    expect(of(binding, 'headroom')?.fix).toContain('No crop meets headroom')
    const advisory = judged(place, { settings: with20, advisory: ['eye-line'] })
    expect(of(advisory, 'headroom')).toHaveProperty('crop')
    expect(of(advisory, 'eye-line')).not.toHaveProperty('crop')
  })

  test('a head in doubt gives no crop', () => {
    const doubtful = {
      face: measuredAt(WIDE).face,
      ...head({ confidence: 0.3, doubts: ['crown-implausible'] }),
    }
    const outcomes = judged(WIDE, { settings: { ...settings, 'aspect-ratio': '1:1' } }, doubtful)
    expect(of(outcomes, 'headroom')?.verdict).toBe('unsure')
    expect(of(outcomes, 'aspect-ratio')?.fix).toContain('Crop 600 px off the height')
    expect(outcomes.some((outcome) => 'crop' in outcome)).toBe(false)
  })

  test('stands in the report, which stays what its schema says', () => {
    const report = reportOn([{ file: 'print/a.jpg', measured: measuredAt(WIDE) }], {
      ...SPEC,
      settings,
      deliverables: {},
    })
    expect(JSON.stringify(report)).toContain('"crop":{"leftPx":')
    expect(new Ajv({ strict: true, allowUnionTypes: true }).compile(Report)(report)).toBe(true)
  })
})
