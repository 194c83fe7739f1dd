import { describe, expect, test } from 'vitest'
import type { FrameCrop } from '../../src/frames/frame-report.ts'
import { judgeFrame } from '../../src/frames/judge-frame.ts'
import type { Rule } from '../../src/rules/contract/rule.ts'
import { RULES } from '../../src/rules/index.ts'
import type { Asked } from '../framing/cases.ts'
import { measuredAt } from '../framing/cases.ts'
import { seeded } from '../random.ts'
import { GOOD_NAME } from '../rules/judging/cases.ts'
import { partOf } from '../sets.ts'
import { bruteForce, canvasOf, isClear } from './brute-force.ts'
import { measuredFrame, orderOf, type RandomFrame, randomFrame, randomOrder } from './random-frames.ts'

const CASES = partOf(10_000, 40)
const SEED = 1717

/** The rules themselves on the crop, whose measurements are derived from the place of the sitter and not by the program. */
function verdictsOn(frame: RandomFrame, asked: Asked, crop: FrameCrop): string[] {
  const canvas = canvasOf(frame, asked, crop.turnDeg)
  const { leftPx, topPx, widthPx, heightPx, scaleTo } = crop
  const [across, down] = [200 / widthPx, 200 / heightPx]
  const { errors } = frame
  const box = { left: leftPx, top: topPx, width: widthPx, height: heightPx }
  expect(isClear(canvas, asked, box), 'in the picture, and clear of what stands at its edges').toBe(true)
  const cut = measuredAt(
    {
      ...{ width: widthPx, height: heightPx, faceWidth: canvas.faceRight - canvas.faceLeft },
      ...{ crown: canvas.crown - topPx, chin: canvas.chin - topPx },
      ...{ eyeX: canvas.eyeX - leftPx, eyeY: canvas.eyeY - topPx },
    },
    {
      face: { tiltDeg: frame.tiltDeg + crop.turnDeg, tiltErrorDeg: 2 * errors.tilt },
      head: {
        headHeightPct: (100 * canvas.headHeight) / heightPx,
        crownErrorPct: down * errors.crown,
        eyeLineErrorPct: down * errors.eyeLine,
        headHeightErrorPct: down * errors.headHeight,
        offCenterErrorPct: across * errors.offCenter,
      },
    },
  )
  const measured = { ...cut, ...(scaleTo ?? {}) }
  const rules: Rule[] = RULES.filter(({ id }) => asked[id] !== undefined && id !== 'backdrop-edge')
  return rules.map((rule) => rule.judge({ measured, name: GOOD_NAME }, asked[rule.id]).verdict)
}

describe('crop-room against every crop of a small frame, tried one by one', () => {
  test.each([
    ['small', 16, 0.7 * CASES],
    ['larger', 26, 0.3 * CASES],
  ] as const)('%s frames', (_, most, cases) => {
    const random = seeded(SEED + most)
    const seen = { pass: 0, fail: 0, unsure: 0, turned: 0 }
    for (let i = 0; i < cases; i++) {
      const frame = randomFrame(random, most)
      const asked = randomOrder(random, frame)
      const [room] = judgeFrame(measuredFrame(frame), orderOf(asked)).rooms
      const said = JSON.stringify({ i, frame, asked, room })
      if (!room) throw new Error(said)
      if (room.rules.length === 0) continue
      const { verdict, crop } = room
      if (verdict === 'skip') throw new Error(said)
      expect(verdict, said).toBe(bruteForce(frame, asked))
      seen[verdict]++
      if (verdict !== 'pass') continue
      if (!crop) throw new Error(said)
      seen.turned += crop.turnDeg === 0 ? 0 : 1
      expect(
        verdictsOn(frame, asked, crop).filter((one) => one !== 'pass'),
        said,
      ).toEqual([])
    }
    // All kinds of answers came up, often.
    expect(seen.pass).toBeGreaterThan(0.15 * cases)
    expect(seen.fail).toBeGreaterThan(0.15 * cases)
    expect(seen.unsure).toBeGreaterThan(0.03 * cases)
    expect(seen.turned).toBeGreaterThan(0.02 * cases)
  })
})
