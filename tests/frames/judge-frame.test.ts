import { Ajv } from 'ajv'
import { describe, expect, test } from 'vitest'
import type { Spec } from '../../src/brand-spec/spec.ts'
import { FrameReport } from '../../src/frames/frame-report.ts'
import { judgeFrame } from '../../src/frames/judge-frame.ts'
import { frameGroups } from '../../src/frames/needs.ts'
import type { Measurements } from '../../src/measure/schema/measurements.ts'
import { SPEC } from '../judge/sample.ts'
import { background, face, finish, GOOD, head, UNREAD } from '../rules/judging/cases.ts'

const ORDER: Spec = {
  ...SPEC,
  advisory: [],
  settings: {
    ...SPEC.settings,
    headroom: { min: 6, max: 12 },
    'background-lightness': { min: 90 },
    'lens-glare': { max: 3 },
    facing: { turn: { max: 15 }, nod: { max: 15 } },
    'key-side': { side: 'left', ratio: { max: 1 } },
  },
  deliverables: {
    print: { 'aspect-ratio': '4:5', 'pixel-size': { width: 1600, height: 2000 } },
    web: { 'aspect-ratio': '1:1', 'pixel-size': { width: { min: 800 } }, 'eye-line': { min: 35, max: 45 } },
  },
}
/** A frame of 4000 x 6000 px with the head in its middle: 1380 px tall, as in the good portrait. */
const FRAME: Partial<Measurements> = {
  ...{ widthPx: 4000, heightPx: 6000 },
  ...between(30, 53),
  ...face({ box: { x: 0.41, y: 0.35, width: 0.18, height: 0.18 } }),
}
const isReport = new Ajv({ allowUnionTypes: true }).compile(FrameReport)

function judged(changes: Partial<Measurements> = {}, spec: Spec = ORDER): FrameReport {
  const report = judgeFrame({ ...GOOD, ...FRAME, ...changes }, spec)
  expect(isReport(report), JSON.stringify(isReport.errors)).toBe(true)
  return report
}
const codes = ({ advice }: FrameReport) => advice.map(({ code }) => code)
const rooms = (report: FrameReport) => report.rooms.map(({ verdict }) => verdict)

test('a good frame passes: each rule that no crop changes once, each deliverable with its crop', () => {
  const report = judged()
  expect(report.verdict).toBe('pass')
  expect(report.scene.map(({ rule, deliverables }) => [rule, deliverables])).toEqual(
    ['intact', 'background-lightness', 'one-face', 'facing', 'lens-glare', 'key-side'].map((rule) => [
      rule,
      ['print', 'web'],
    ]),
  )
  expect(report.rooms).toMatchObject([
    {
      deliverable: 'print',
      verdict: 'pass',
      crop: { turnDeg: 0, scaleTo: { widthPx: 1600, heightPx: 2000 } },
    },
    { deliverable: 'web', verdict: 'pass' },
  ])
  expect(report.advice).toEqual([])
})

test('a rule that deliverables set differently is judged for each', () => {
  const { print, web } = ORDER.deliverables
  const spec = {
    ...ORDER,
    deliverables: { print: { ...print, 'background-lightness': { max: 80 } }, web: web ?? {} },
  }
  const report = judged({}, spec)
  expect(report.scene.filter(({ rule }) => rule === 'background-lightness')).toMatchObject([
    { deliverables: ['print'], verdict: 'fail' },
    { deliverables: ['web'], verdict: 'pass' },
  ])
  expect(report.advice).toMatchObject([{ code: 'light-backdrop', deliverables: ['print'] }])
})

test('what export decides is left out', () => {
  expect(judged({ color: { space: 'cmyk', profile: 'none', profileName: null } }).verdict).toBe('pass')
})

describe('what to change on the set', () => {
  test.each<[string, Partial<Measurements>, Partial<FrameReport['advice'][number]>]>([
    ['a backdrop one stop too dark', background({ lightnessL: 69.6 }), { code: 'light-backdrop' }],
    ['glare', finish({ lensGlarePct: 9 }), { code: 'tip-spectacles' }],
    ['a turn', face({ ...FRAME.face, turnDeg: 25 }), { code: 'turn-head', side: 'left', deg: 10 }],
    ['a nod', face({ ...FRAME.face, nodDeg: -20 }), { code: 'nod-head', side: 'up', deg: 5 }],
    ['light from the other side', finish({ keySide: 'right' }), { code: 'move-key', side: 'left' }],
    ['too little fill', finish({ keyRatioStops: 1.5 }), { code: 'fill', stops: 0.5 }],
    [
      'two people',
      face({
        ...FRAME.face,
        count: 2,
        others: [{ box: GOOD.face?.box ?? { x: 0, y: 0, width: 1, height: 1 }, score: 0.9 }],
      }),
      { code: 'one-person' },
    ],
    [
      'a lean',
      face({ ...FRAME.face, tiltDeg: 9 }),
      { code: 'level-camera', side: 'counterclockwise', deg: 7 },
    ],
  ])('%s', (_, changes, advice) => {
    const report = judged(changes)
    expect(report.verdict).toBe('fail')
    expect(report.advice).toHaveLength(1)
    expect(report.advice[0]).toMatchObject({ ...advice, advisory: false })
  })

  test('a stop is a stop: from L* 69.6 to 90 it is one (CIE 15: Y 40.2 and 76.3 of 100)', () => {
    const [advice] = judged(background({ lightnessL: 69.6 })).advice
    expect(advice?.stops).toBeCloseTo(Math.log2(76.3 / 40.2), 2)
  })

  test.each<[string, { leftL: number; rightL: number }, object]>([
    ['both sides are alike', { leftL: 69.7, rightL: 69.5 }, { side: undefined }],
    ['the left is darker', { leftL: 60, rightL: 80 }, { side: 'left' }],
    ['the right is darker', { leftL: 75, rightL: 66 }, { side: 'right' }],
  ])('a dark backdrop: %s', (_, sides, advice) => {
    const [told] = judged(background({ lightnessL: 69.6, sides })).advice
    expect({ code: told?.code, side: told?.side }).toEqual({ code: 'light-backdrop', ...advice })
    expect(told?.stops).toBeGreaterThan(0)
  })

  test('an uneven backdrop is lit at its darker side, by the difference (CIE 15: Y 40.7 and 57.0 of 100)', () => {
    const spec = {
      ...ORDER,
      settings: { ...ORDER.settings, 'background-lightness': false, 'background-unevenness': { max: 4 } },
    }
    const uneven = (leftL: number, rightL: number) =>
      judged(background({ unevennessL: 9, sides: { leftL, rightL } }), spec)
    const [advice] = uneven(80.2, 70).advice
    expect(advice).toMatchObject({ code: 'light-backdrop', side: 'right' })
    expect(advice?.stops).toBeCloseTo(Math.log2(57 / 40.7), 1)
    expect(codes(uneven(75, 75.5))).toEqual(['even-backdrop'])
  })

  test('a frame that can not be read', () => {
    const report = judged(UNREAD)
    expect(report).toMatchObject({ verdict: 'fail', size: null })
    expect(codes(report)).toEqual(['copy-again'])
  })

  test('no face at all is told once', () => {
    const none = face({ count: 0, box: null, confidence: 0, doubts: ['no-face'], tiltDeg: null })
    const report = judged({ ...none, ...head({ confidence: 0, doubts: ['no-face'] }) })
    expect(codes(report)).toEqual(['one-person'])
    expect(rooms(report)).toEqual(['skip', 'skip'])
  })
})

describe('room for the crops', () => {
  test.each<[string, Partial<Measurements>, readonly string[]]>([
    ['the head so far up that the crop has no room above it', up(29), ['aim up']],
    ['so far to the left that centering fails', across(-45), ['aim left']],
    ['so small that the crop has too few pixels', between(40, 48), ['step-closer undefined']],
    ['so large that it fills the frame', between(10, 85), ['step-back undefined', 'aim down']],
    ['a lying frame of an upright order', { widthPx: 3000, heightPx: 1900 }, ['turn-camera undefined']],
  ])('%s', (_, changes, advice) => {
    const spec = {
      ...ORDER,
      settings: { ...ORDER.settings, 'head-height': { min: 40, max: 50 }, centering: { max: 2 } },
    }
    const report = judged(changes, spec)
    expect(report.verdict, JSON.stringify(report.rooms)).toBe('fail')
    expect([...new Set(report.advice.map(({ code, side }) => `${code} ${side}`))]).toEqual(advice)
  })

  test('something at the edge is no fault where the crop leaves it out, and one where it can not', () => {
    const spec = { ...ORDER, settings: { ...ORDER.settings, 'backdrop-edge': true, centering: { max: 2 } } }
    const at = (width: number) =>
      background({
        intrusions: [{ side: 'left', box: { x: 0, y: 0, width, height: 1 }, areaPct: 100 * width }],
      })
    expect(judged(at(0.1), spec).verdict).toBe('pass')
    expect(judged(at(0.4), spec).advice).toMatchObject([{ code: 'clear-edge', side: 'left' }])
    expect(rooms(judged(background({ intrusions: null }), spec))).toEqual(['unsure', 'unsure'])
  })

  test('a head that leans a little is leveled, which costs the corners', () => {
    const report = judged(face({ ...FRAME.face, tiltDeg: 4 }))
    expect(report.verdict).toBe('pass')
    expect(report.rooms[0]?.crop?.turnDeg).toBe(-4)
    expect(report.rooms[0]?.crop?.canvas).toEqual({ widthPx: 4408, heightPx: 6264 })
  })

  test('what only warns does not make a frame unusable', () => {
    const spec = { ...ORDER, advisory: ['headroom'] }
    const report = judged(up(29), spec)
    expect(report.verdict).toBe('pass')
    expect(report.rooms).toMatchObject([{ warned: ['headroom'] }, { warned: ['headroom'] }])
  })
})

/** The head moved up by so many percent of the frame. */
function up(pct: number): Partial<Measurements> {
  return between(30 - pct, 53 - pct)
}

function across(offCenterPct: number): Partial<Measurements> {
  const width = 0.18
  const box = { x: 0.5 + offCenterPct / 100 - width / 2, y: 0.35, width, height: 0.18 }
  return { ...head({ ...FRAME.head, offCenterPct }), ...face({ ...FRAME.face, box }) }
}

/** A head from so far down the frame to so far, in percent of it. */
function between(crown: number, chin: number): Partial<Measurements> {
  return head({
    crown: { x: 0.5, y: crown / 100 },
    chin: { x: 0.5, y: chin / 100 },
    ...{ headroomPct: crown, headHeightPct: chin - crown, eyeLinePct: (crown + chin) / 2 },
  })
}

test('a preview is judged by the pixels of its frame', () => {
  const small = { widthPx: 1000, heightPx: 1500 }
  expect(judged(small).advice).toMatchObject([
    { code: 'too-few-pixels', deliverables: ['print'] },
    { code: 'step-closer', deliverables: ['web'] },
  ])
  const report = judgeFrame({ ...GOOD, ...FRAME, ...small }, ORDER, { widthPx: 4000, heightPx: 6000 })
  expect(report).toEqual({ ...judged() })
})

test('only what is judged is measured', () => {
  expect(frameGroups({ ...SPEC, settings: { 'metadata-required': {} }, deliverables: {} })).toEqual([
    'checksum',
    'file',
    'decode',
    'face',
  ])
  expect(frameGroups(ORDER)).toEqual(['checksum', 'file', 'decode', 'background', 'face', 'head', 'finish'])
})
