import { Value } from '@sinclair/typebox/value'
import { expect, test } from 'vitest'
import type { FileReport } from '../../../src/judge/report.ts'
import { Finish } from '../../../src/measure/schema/measurements.ts'
import { overlayOf, overlayWords } from '../../../src/report/html/overlay.ts'
import { reportOn, SPEC } from '../../judge/sample.ts'
import { GOOD, head, UNREAD } from '../../rules/judging/cases.ts'

function fileWith(measured = {}, settings = {}): FileReport {
  const spec = { ...SPEC, settings: { ...SPEC.settings, ...settings } }
  const [file] = reportOn([{ file: 'a.jpg', measured }], spec).files
  if (!file) throw new Error('no file')
  return file
}

test('lines where they were measured, as shares of the frame', () => {
  const { lines } = overlayOf(fileWith(head({ headroomPct: 9, eyeLinePct: 37, offCenterPct: -3 })))
  expect(lines.map(({ kind, at }) => [kind, at])).toEqual([
    ['crown', 0.09],
    ['eyes', 0.37],
    ['chin', 0.55],
    ['middle', 0.47],
  ])
})

test('the ranges asked, cut at the edges of the frame; open ends reach them', () => {
  const { asked } = overlayOf(
    fileWith({}, { headroom: { min: -5, max: 12 }, 'eye-line': { min: 33 }, centering: { max: 3 } }),
  )
  expect(asked.map(({ kind, from, to }) => [kind, from, to])).toEqual([
    ['crown', 0, 0.12],
    ['eyes', 0.33, 1],
    ['middle', 0.47, 0.53],
  ])
})

test('nothing is drawn that was not measured', () => {
  expect(overlayOf(fileWith(UNREAD))).toEqual({ lines: [], asked: [], boxes: [] })
  const nothing = { crown: null, chin: null, headroomPct: null, eyeLinePct: null, offCenterPct: null }
  expect(overlayOf(fileWith(head(nothing))).lines).toEqual([])
})

test('boxes: face, other faces, what is no backdrop, glare on a lens, the crop proposed in px', () => {
  const box = { x: 0.1, y: 0.2, width: 0.3, height: 0.4 }
  const sure = { confidence: 1, doubts: [] }
  const eye = { glarePct: 20, box, catchlights: 1 }
  const finish = { ...Value.Create(Finish), lensGlare: { left: eye, right: null, ...sure } }
  const file = fileWith()
  const measurements = {
    ...file.measurements,
    face: { ...(GOOD.face ?? never()), others: [{ box, score: 0.9 }] },
    finish,
    background: {
      ...(GOOD.background ?? never()),
      intrusions: [{ side: 'left' as const, box, areaPct: 12 }],
    },
  }
  const crop = { leftPx: 240, topPx: 300, widthPx: 1200, heightPx: 1500 }
  const outcomes = file.outcomes.map((one) => ({ ...one, crop }))
  const { boxes } = overlayOf({ ...file, measurements, outcomes })
  expect(boxes.map(({ kind }) => kind)).toEqual(['face', 'other-face', 'intrusion', 'glare', 'crop'])
  expect(boxes.at(-1)).toMatchObject({ x: 0.1, y: 0.1, width: 0.5, height: 0.5 })
})

test('all of it in words', () => {
  expect(overlayWords(overlayOf(fileWith()))).toEqual([
    'crown at 9 %',
    'eye line at 37 %',
    'chin at 55 %',
    'midpoint of the eyes at 50.2 %',
    'headroom asked for: 6 to 12 %',
    'face',
  ])
})

function never(): never {
  throw new Error('the good portrait has a face')
}
