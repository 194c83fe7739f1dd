import { describe, expect, test } from 'vitest'
import { settledCauses } from '../../src/judge/causes.ts'
import { judgeFile } from '../../src/judge/judge.ts'
import type { Measurements } from '../../src/measure/schema/measurements.ts'
import { RULES } from '../../src/rules/index.ts'
import { background, face, finish, GOOD, GOOD_NAME, head } from '../rules/judging/cases.ts'
import { SPEC } from './sample.ts'

const NO_FACE = {
  ...GOOD,
  ...face({
    count: 0,
    score: 0,
    box: null,
    eyeDistancePx: null,
    tiltDeg: null,
    confidence: 0,
    doubts: ['no-face'],
  }),
  ...head({
    headroomPct: null,
    eyeLinePct: null,
    headHeightPct: null,
    offCenterPct: null,
    confidence: 0,
    doubts: ['no-face'],
  }),
}
const settings = {
  ...{ headroom: { min: 6 }, 'eye-line': { min: 30 }, 'head-height': { min: 40 }, centering: { max: 3 } },
  ...{ tilt: { max: 2 }, 'background-lightness': { min: 90 } },
}

const noDeliverables = { deliverables: {}, advisory: [] as string[] }

function outcomesOf(measured: Measurements, changes: Record<string, unknown> = {}, advisory: string[] = []) {
  const spec = { ...SPEC, ...noDeliverables, advisory, settings: { ...settings, ...changes } }
  return judgeFile({ measured, name: GOOD_NAME }, spec, RULES)
}

function missesOf(...asked: Parameters<typeof outcomesOf>): string[] {
  return outcomesOf(...asked)
    .filter(({ verdict }) => verdict === 'unsure' || verdict === 'fail')
    .map(({ rule, verdict }) => `${rule} ${verdict}`)
}

describe('no face', () => {
  test('is told in one line', () => {
    expect(missesOf(NO_FACE)).toEqual(['one-face fail'])
  })

  test('also when the backdrop of what is shown is not plain', () => {
    const fox = { ...NO_FACE, ...background({ confidence: 0.2, doubts: ['backdrop-not-plain'] }) }
    const backdrop = { 'background-tint': { 'max-chroma': 3 }, 'background-unevenness': { max: 4 } }
    expect(missesOf(fox, { ...backdrop, 'backdrop-edge': true })).toEqual(['one-face fail'])
  })

  test('is told by each rule when nobody counts faces', () => {
    const each = ['headroom', 'eye-line', 'head-height', 'centering', 'tilt'].map((rule) => `${rule} unsure`)
    expect(missesOf(NO_FACE, { 'one-face': false })).toEqual(each)
    // A warning alone would let the picture pass.
    expect(missesOf(NO_FACE, {}, ['one-face'])).toEqual(['one-face fail', ...each])
  })

  test('excuses nothing that fails without one', () => {
    expect(missesOf(NO_FACE, { 'background-lightness': { min: 99 } })).toEqual([
      'background-lightness fail',
      'one-face fail',
    ])
  })

  test('a face that is hard to measure is told rule by rule', () => {
    const weak = { ...GOOD, ...face({ confidence: 0.2, doubts: ['face-uncertain'] }) }
    expect(missesOf(weak).length).toBeGreaterThan(1)
  })
})

describe('a head that the frame cuts', () => {
  const CUT = { ...GOOD, ...head({ headroomPct: 0, confidence: 0.4, doubts: ['crown-out-of-frame'] }) }

  test('is told by headroom, and not by the head height that nobody can know', () => {
    expect(missesOf(CUT)).toEqual(['headroom fail'])
  })

  test('is told by the head height where no headroom is asked for', () => {
    expect(missesOf(CUT, { headroom: false })).toEqual(['head-height unsure'])
  })
})

describe('a place behind the sitter', () => {
  const OFFICE = { ...GOOD, ...background({ plainPct: 30, confidence: 0.2, doubts: ['backdrop-not-plain'] }) }
  const asked = {
    ...{ 'background-tint': { 'max-chroma': 3 }, 'background-unevenness': { max: 4 } },
    ...{ 'backdrop-edge': true, 'background-plain': 'required' },
  }

  test('is told once where a plain backdrop is required', () => {
    expect(missesOf(OFFICE, asked)).toEqual(['background-plain fail'])
  })

  test.each(['optional', 'refused'])('is nothing to tell where it is %s to be plain', (wanted) => {
    const outcomes = outcomesOf(OFFICE, { ...asked, 'background-plain': wanted })
    expect(outcomes.filter(({ verdict }) => verdict === 'unsure' || verdict === 'fail')).toEqual([])
    expect(outcomes.find(({ rule }) => rule === 'background-tint')).toMatchObject({
      verdict: 'skip',
      reason: 'The backdrop is not plain, which the spec allows.',
    })
  })

  test('is told by each rule where nobody says what the backdrop is to be', () => {
    expect(missesOf(OFFICE, { ...asked, 'background-plain': false })).toHaveLength(4)
  })

  test('excuses no head that is in doubt', () => {
    const unclear = { ...OFFICE, ...head({ confidence: 0.4, doubts: ['crown-unclear'] }) }
    expect(missesOf(unclear, asked)).toContain('headroom unsure')
  })
})

describe('a picture without color', () => {
  const GRAY = {
    ...GOOD,
    peakChromaC: 0.4,
    ...background({ chromaC: 0, lab: { L: 96, a: 0, b: 0 } }),
    ...finish({
      lensGlarePct: null,
      lensGlare: { left: null, right: null, confidence: 0.2, doubts: ['skin-colorless'] },
    }),
  }
  const asked = { 'background-tint': { color: '#f4ead8', tolerance: 2 }, 'lens-glare': { max: 3 } }

  test('is told by color-space, and neither by the tint of the backdrop nor by lens glare', () => {
    expect(missesOf(GRAY, { ...asked, 'color-space': 'sRGB' })).toEqual(['color-space fail'])
  })

  test('where it is allowed, what can not be told of it is still to be checked', () => {
    const allowed = { profile: 'sRGB', 'allow-monochrome': true }
    expect(missesOf(GRAY, { ...asked, 'color-space': allowed })).toEqual([
      'background-tint fail',
      'lens-glare unsure',
    ])
  })
})

describe('what the rules over the delivery need not tell again', () => {
  const gray = { ...GOOD, peakChromaC: 0.4 }
  const cut = { ...GOOD, ...head({ headroomPct: 0, confidence: 0.4, doubts: ['crown-out-of-frame'] }) }
  const place = { ...GOOD, ...background({ plainPct: 30, confidence: 0.2, doubts: ['backdrop-not-plain'] }) }
  const allowed = { 'color-space': { profile: 'sRGB', 'allow-monochrome': true } }
  test.each([
    ['nothing of a good portrait', GOOD, {}, [], []],
    ['no face', NO_FACE, {}, [], ['no-face']],
    ['no face that only warns', NO_FACE, {}, ['one-face'], []],
    ['a cut head', cut, {}, [], ['head-cut']],
    ['a cut head that nobody asks about', cut, { headroom: false }, [], []],
    ['a place', place, { 'background-plain': 'optional' }, [], ['not-plain']],
    ['a place that nobody asks about', place, {}, [], []],
    ['no color', gray, { 'color-space': 'sRGB' }, [], ['no-color']],
    ['no color, as the spec allows', gray, allowed, [], ['no-color']],
    ['no color that nobody asks about', gray, {}, [], []],
  ] as const)('%s', (_, measured, changes, advisory, settled) => {
    expect(settledCauses(outcomesOf(measured, changes, [...advisory]), measured)).toEqual(settled)
  })
})
