import { expect } from 'vitest'
import type { Crop } from '../../src/framing/advice.ts'
import { askedRules, type FramingAsk } from '../../src/framing/ask.ts'
import type { Face, Head, Measurements } from '../../src/measure/schema/measurements.ts'
import type { Rule } from '../../src/rules/contract/rule.ts'
import { aspectRatio } from '../../src/rules/file/aspect-ratio.ts'
import { pixelSize } from '../../src/rules/file/pixel-size.ts'
import { centering } from '../../src/rules/sitter/centering.ts'
import { eyeLine } from '../../src/rules/sitter/eye-line.ts'
import { headHeight } from '../../src/rules/sitter/head-height.ts'
import { headroom } from '../../src/rules/sitter/headroom.ts'
import { tilt } from '../../src/rules/sitter/tilt.ts'
import { GOOD, GOOD_NAME } from '../rules/judging/cases.ts'

/** Where a sitter is in a frame, in px. The face reaches as far to the left of the eyes as to the right. */
export interface Place {
  readonly width: number
  readonly height: number
  readonly crown: number
  readonly chin: number
  readonly eyeX: number
  readonly eyeY: number
  readonly faceWidth: number
  readonly tiltDeg?: number
}

/** The portrait of the rules' tests, 2400 x 3000 px: a head 1380 px tall, 270 px under the top edge. */
export const PLACE: Place = {
  width: 2400,
  height: 3000,
  crown: 270,
  chin: 1650,
  eyeX: 1200,
  eyeY: 1110,
  faceWidth: 720,
}

/** The measurements of such a picture, of full confidence. */
export function measuredAt(place: Place, changes: { face?: Partial<Face>; head?: Partial<Head> } = {}) {
  const { width, height, crown, chin, eyeX, eyeY, faceWidth, tiltDeg = 0 } = place
  const measured: Measurements = {
    ...GOOD,
    widthPx: width,
    heightPx: height,
    face: {
      ...(GOOD.face as Face),
      box: { x: (eyeX - faceWidth / 2) / width, y: 0.2, width: faceWidth / width, height: 0.36 },
      tiltDeg,
      ...changes.face,
    },
    head: {
      crown: { x: eyeX / width, y: crown / height },
      chin: { x: eyeX / width, y: chin / height },
      chinErrorPct: 0,
      headroomPct: (100 * crown) / height,
      crownErrorPct: 0,
      eyeLinePct: (100 * eyeY) / height,
      eyeLineErrorPct: 0,
      headHeightPct: (100 * (chin - crown)) / height,
      headHeightErrorPct: 0,
      offCenterPct: 100 * (eyeX / width - 0.5),
      offCenterErrorPct: 0,
      confidence: 1,
      doubts: [],
      ...changes.head,
    },
  }
  return measured
}

/** Options of the rules on the framing, as a spec writes them. */
export type Asked = Readonly<Record<string, unknown>>

const RULES = [aspectRatio, pixelSize, headroom, eyeLine, headHeight, centering, tilt]

export function askFor(asked: Asked): FramingAsk {
  let ask: FramingAsk = asked['backdrop-edge'] ? { 'backdrop-edge': { smallestPct: 0.1 } } : {}
  for (const rule of rulesIn(asked)) ask = { ...ask, ...rule.framing?.(asked[rule.id]) }
  return ask
}

function rulesIn(asked: Asked): Rule[] {
  return RULES.filter(({ id }) => asked[id] !== undefined)
}

/** Every rule on the framing passes on the crop: its geometry derived anew, and judged at the size delivered. */
export function expectMet(place: Place, asked: Asked, { crop, scaleTo, meets }: Crop): void {
  const { leftPx, topPx, widthPx, heightPx } = crop
  expect(leftPx, 'the crop begins in the frame').toBeGreaterThanOrEqual(0)
  expect(topPx).toBeGreaterThanOrEqual(0)
  expect(leftPx + widthPx, 'the crop ends in the frame').toBeLessThanOrEqual(place.width)
  expect(topPx + heightPx).toBeLessThanOrEqual(place.height)
  const delivered = scaleTo ?? { widthPx, heightPx }
  expect(delivered.widthPx, 'never scaled up').toBeLessThanOrEqual(widthPx)
  expect(delivered.heightPx).toBeLessThanOrEqual(heightPx)
  const cropped = measuredAt({
    ...place,
    width: widthPx,
    height: heightPx,
    crown: place.crown - topPx,
    chin: place.chin - topPx,
    eyeX: place.eyeX - leftPx,
    eyeY: place.eyeY - topPx,
  })
  expect(meets).toEqual(askedRules(askFor(asked)))
  expectPass({ ...cropped, ...delivered }, asked)
}

/** Every rule that is asked, but for the tilt, passes. */
export function expectPass(measured: Measurements, asked: Asked): void {
  for (const rule of rulesIn(asked).filter(({ id }) => id !== 'tilt')) {
    const { verdict, reason } = rule.judge({ measured, name: GOOD_NAME }, asked[rule.id])
    expect(verdict, `${rule.id}: ${reason}`).toBe('pass')
  }
}
