import { expect, test } from 'vitest'
import { judgeFile } from '../../src/judge/judge.ts'
import { RULES } from '../../src/rules/index.ts'
import { face, GOOD, GOOD_NAME, head } from '../rules/judging/cases.ts'
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

function unsureOn(measured: typeof GOOD, changes: Record<string, unknown> = {}): string[] {
  const spec = { ...SPEC, settings: { ...settings, ...changes }, deliverables: {}, advisory: [] }
  const outcomes = judgeFile({ measured, name: GOOD_NAME }, spec, RULES)
  return outcomes.filter(({ verdict }) => verdict === 'unsure' || verdict === 'fail').map(({ rule }) => rule)
}

test('a picture without a face is told in one line', () => {
  expect(unsureOn(NO_FACE)).toEqual(['one-face'])
})

test('unless nobody counts faces', () => {
  expect(unsureOn(NO_FACE, { 'one-face': false })).toEqual([
    'headroom',
    'eye-line',
    'head-height',
    'centering',
    'tilt',
  ])
})

test('what does not need a face is judged all the same', () => {
  expect(unsureOn(NO_FACE, { 'background-lightness': { min: 99 } })).toEqual([
    'background-lightness',
    'one-face',
  ])
})

test('a face that is hard to measure is told rule by rule', () => {
  const weak = { ...GOOD, ...face({ confidence: 0.2, doubts: ['face-uncertain'] }) }
  expect(unsureOn(weak).length).toBeGreaterThan(1)
})
