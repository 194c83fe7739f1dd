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

  test('told once for all rules on the framing that fail, which refer to it', () => {
    const outcomes = judged(WIDE, { settings })
    const failed = outcomes.filter(({ verdict }) => verdict === 'fail')
    expect(failed.map(({ rule }) => rule)).toEqual(['file-size', 'pixel-size', 'headroom', 'centering'])
    expect(of(outcomes, 'pixel-size')?.fix).toMatch(
      /^Crop to \d+ x \d+ px .*, then scale to 1200 x 1500 px\.$/,
    )
    expect(outcomes.filter(({ crop }) => crop).map(({ rule }) => rule)).toEqual(['pixel-size'])
    for (const rule of ['headroom', 'centering'])
      expect(of(outcomes, rule)?.fix).toBe('See pixel-size: that fixes this too.')
  })

  test('a head that the frame cuts: the uncropped frame for all', () => {
    const cut = head({
      headroomPct: 0,
      eyeLinePct: 20,
      offCenterPct: 5,
      confidence: 0.4,
      doubts: ['crown-out-of-frame'],
    })
    const asked = { headroom: { min: 6 }, 'eye-line': { min: 33 }, centering: { max: 2 } }
    const outcomes = judged(WIDE, { settings: asked }, cut)
    expect(of(outcomes, 'headroom')?.fix).toMatch(/^Go back to the uncropped frame/)
    for (const rule of ['eye-line', 'centering'])
      expect(of(outcomes, rule)?.fix).toBe('See headroom: the new crop has to fix this too.')
    const without = judged(WIDE, { settings: { ...asked, headroom: false } }, cut)
    expect(of(without, 'eye-line')?.fix).toMatch(/^The eyes sit too high/)
  })

  test('beyond the file, with what is missing', () => {
    // 4.1 % above a head of 46 %, all pixels asked: 6 % are 57 px more.
    const high: Place = { ...PLACE, crown: 123, chin: 1503, eyeY: 963, eyeX: 1000 }
    const asked = {
      'pixel-size': { width: 2400, height: 3000 },
      headroom: { min: 6, max: 12 },
      centering: { max: 2 },
    }
    const outcomes = judged(high, { settings: asked })
    const crop = of(outcomes, 'headroom')?.crop
    expect(crop).toMatchObject({ widthPx: 2400, heightPx: 3000 })
    expect(crop?.missing).toMatchObject({ belowPx: 0, rightPx: 0 })
    expect(crop?.missing?.abovePx).toBe(-(crop?.topPx ?? 0))
    expect(crop?.missing?.abovePx).toBeGreaterThanOrEqual(57)
    expect(of(outcomes, 'headroom')?.fix).toMatch(/^Go back to the uncropped frame and take 2400 x 3000 px/)
    // GOOD's backdrop reaches all of the top edge and 70 % of the sides.
    expect(of(outcomes, 'headroom')?.fix).toMatch(/extended above the head, but not on the left\.$/)
    expect(of(outcomes, 'centering')?.fix).toBe('See headroom: that fixes this too.')
  })

  test('of what the file holds too few pixels of', () => {
    const small: Place = { ...PLACE, crown: 270, chin: 1400, eyeY: 950 }
    const asked = { 'pixel-size': { width: 2400, height: 3000 }, 'head-height': { min: 42, max: 46 } }
    const outcomes = judged(small, { settings: asked })
    const { crop, fix } = of(outcomes, 'head-height') ?? {}
    expect(crop?.scaleTo).toEqual({ widthPx: 2400, heightPx: 3000 })
    expect(crop?.missing).toBeUndefined()
    expect(fix).toMatch(/^Go back to the full-size original and .* and export that at 2400 x 3000 px\./)
  })

  test('the options of the deliverable count', () => {
    const changes = { settings: { headroom: { min: 20, max: 30 } }, deliverables: { print: settings } }
    const { crop } = of(judged(WIDE, changes), 'pixel-size') ?? {}
    expect(crop && (600 - crop.topPx) / crop.heightPx).toBeLessThanOrEqual(0.12)
  })

  test('what is switched off does not bind', () => {
    const off = { ...settings, 'pixel-size': false, 'aspect-ratio': false, centering: false }
    expect(of(judged(WIDE, { settings: off }), 'headroom')?.crop).toMatchObject({ widthPx: 2400 })
  })

  test('a tilt that is asked and missed: level first', () => {
    const outcomes = judged({ ...WIDE, tiltDeg: 6 }, { settings: { ...settings, tilt: { max: 2 } } })
    expect(of(outcomes, 'pixel-size')?.fix).toMatch(/^Level the head first/)
    expect(of(outcomes, 'tilt')?.fix).toMatch(/^Rotate the picture counterclockwise/)
    expect(of(outcomes, 'tilt')).not.toHaveProperty('crop')
  })

  test('what can’t be met and is only advisory gives way', () => {
    // Headroom and a head of that size put the eyes lower than 20 %.
    const with20 = { ...settings, 'head-height': { min: 42, max: 52 }, 'eye-line': { max: 20 } }
    const place = { ...WIDE, eyeX: 1300 }
    const binding = judged(place, { settings: with20 })
    expect(of(binding, 'headroom')?.fix).toContain('No crop, even of a wider frame, meets headroom')
    expect(of(binding, 'eye-line')?.fix).toBe("See headroom: they can't be met together.")
    expect(of(binding, 'headroom')).not.toHaveProperty('crop')
    const advisory = judged(place, { settings: with20, advisory: ['eye-line'] })
    expect(of(advisory, 'pixel-size')).toHaveProperty('crop')
    expect(of(advisory, 'eye-line')).not.toHaveProperty('crop')
    expect(of(advisory, 'eye-line')?.fix).toContain('No crop, even of a wider frame, meets headroom')
  })

  test('what can’t be met with some leaves one crop for the rest', () => {
    const contradictory = {
      'eye-line': { max: 20 },
      'head-height': { min: 42, max: 52 },
      headroom: { min: 6, max: 12 },
    }
    const outcomes = judged(WIDE, { settings: { ...contradictory, centering: { max: 2 } } })
    expect(of(outcomes, 'headroom')?.fix).toContain('No crop, even of a wider frame, meets headroom')
    expect(of(outcomes, 'centering')?.crop).toBeDefined()
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
