import { describe, expect, test } from 'vitest'
import { sitterOf } from '../../src/framing/sitter.ts'
import type { Face, Head, Measurements } from '../../src/measure/schema/measurements.ts'
import { UNREAD } from '../rules/judging/cases.ts'
import { measuredAt, PLACE } from './cases.ts'

describe('sitterOf', () => {
  test('places in px of the frame', () => {
    const sitter = sitterOf(measuredAt(PLACE))
    expect(sitter).toMatchObject({ frame: { widthPx: 2400, heightPx: 3000 }, tiltDeg: 0 })
    if ('doubts' in sitter) throw new Error('A sure head was expected.')
    expect(sitter.crownY).toBeCloseTo(270, 9)
    expect(sitter.chinY).toBeCloseTo(1650, 9)
    expect(sitter.headHeight).toBeCloseTo(1380, 9)
    expect(sitter.errors).toEqual({ crown: 0, eyeLine: 0, headHeight: 0, offCenter: 0 })
    expect(sitter.eyes.x).toBeCloseTo(1200, 9)
    expect(sitter.eyes.y).toBeCloseTo(1110, 9)
    expect(sitter.faceLeft).toBeCloseTo(840, 9)
    expect(sitter.faceRight).toBeCloseTo(1560, 9)
  })

  test('a face box over the edges ends at the edges', () => {
    expect(sitterOf(measuredAt({ ...PLACE, eyeX: 200 }))).toMatchObject({ faceLeft: 0 })
    expect(sitterOf(measuredAt({ ...PLACE, eyeX: 2200 }))).toMatchObject({ faceRight: 2400 })
  })

  test.each<[string, { face?: Partial<Face>; head?: Partial<Head> }, string[]]>([
    [
      'a crown in doubt',
      { head: { confidence: 0.49, doubts: ['crown-implausible'] } },
      ['crown-implausible'],
    ],
    ['a face in doubt', { face: { confidence: 0.4, doubts: ['face-uncertain'] } }, ['face-uncertain']],
    ['no crown', { head: { headroomPct: null, crown: null, doubts: ['no-face'] } }, ['no-face']],
    ['no head height', { head: { headHeightPct: null } }, []],
    ['no eyes', { head: { offCenterPct: null } }, []],
    ['no box', { face: { box: null } }, []],
    [
      'the same doubt twice',
      { face: { confidence: 0, doubts: ['no-face'] }, head: { doubts: ['no-face'] } },
      ['no-face'],
    ],
  ])('%s', (_, changes, doubts) => {
    expect(sitterOf(measuredAt(PLACE, changes))).toEqual({ doubts })
  })

  test.each<[string, Partial<Measurements>]>([
    ['not measured', { head: null, face: null }],
    ['unreadable', UNREAD],
    ['of no size', { widthPx: null }],
  ])('%s', (_, changes) => {
    expect(sitterOf({ ...measuredAt(PLACE), ...changes })).toEqual({ doubts: [] })
  })
})
