import { type Static, Type } from '@sinclair/typebox'
import { FACE_MOST_NOD_DEG, FACE_MOST_TURN_DEG } from '../../measure/schema/gates.ts'
import type { Face } from '../../measure/schema/measurements.ts'
import type { Limits } from '../../numbers/limits.ts'
import { quantity } from '../../text/quantity.ts'
import type { Finding } from '../contract/outcome.ts'
import { defineRule } from '../contract/rule.ts'
import { emptyRange } from '../judging/band.ts'
import { combined } from '../judging/combined.ts'
import { Deviation, deviationLimits, judgeDeviation } from '../judging/deviation.ts'
import { unmeasured } from '../judging/unmeasured.ts'

/**
 * Error of turn and nod, degrees (95 %).
 * @tuned on 51 studio portraits of people told to look ahead: nods scatter by 5° (one standard deviation), of which the height of the
 *   ears, marked by others, tells about 4° to be real; what is left is 3°. 25 photographs are within 4° of the published canonical face.
 */
const ERROR_DEG = 6

/** Standard deviations of a normal distribution within its middle 95 %, and over its upper fifth. @source standard normal table. */
const NORMAL = { in95: 1.96, upperFifth: 0.84 } as const

/** How near to a limit an angle is left open: where more than one in five would be on the other side, degrees. @choice one in five, no source. */
const NEAR_DEG = (ERROR_DEG / NORMAL.in95) * NORMAL.upperFifth

/**
 * How much too small large angles may be read, share of the angle.
 * @tuned on 25 photographs against the published canonical face: up to a sixth. Drawn heads rotated by 30° read a quarter too small,
 *   since their hair stays behind.
 */
const READS_LOW = 1 / 6

export const facing = defineRule({
  id: 'facing',
  severity: 'picture',
  text: {
    title: 'Turn (yaw) and nod (pitch) of the head',
    measures: `The direction that the face points in, from the face mesh, in degrees. Turn (yaw) is positive to the right of the frame; nod (pitch) is positive with the chin raised above level. Both are estimates, good to about ${ERROR_DEG}° (95 of 100), and large angles read up to a sixth too small. So an angle is unsure where more than one in five would be on the other side of its limit, within ${quantity(NEAR_DEG, '°')} of it, or within a sixth of the limit on the inner side; limits under ${quantity(NEAR_DEG, '°')} make every portrait unsure. Faces turned by more than ${FACE_MOST_TURN_DEG}° or nodded by more than ${FACE_MOST_NOD_DEG}° are unsure. Frontal is 0° in both (ANSI/NIST-ITL 1-2011 Update 2013, Annex E.7.2). Whether a turn is a fault is for the client to say.`,
    why: 'Full-face and three-quarter portraits side by side look like two sets.',
    fix: 'Choose a frame in which the head angle meets the spec, or shoot again.',
    example: 'facing: { turn: { max: 15 }, nod: { max: 15 } }',
  },
  options: Type.Object(
    { turn: Type.Optional(Deviation), nod: Type.Optional(Deviation) },
    {
      additionalProperties: false,
      minProperties: 1,
      description: 'How far the head may be turned to a side or nodded, in degrees.',
    },
  ),
  needs: ['face'],
  problem: ({ turn, nod }) =>
    (turn && emptyRange(deviationLimits(turn))) ?? (nod && emptyRange(deviationLimits(nod))) ?? null,
  judge({ measured }, { turn, nod }) {
    const { face } = measured
    if (!face) return unmeasured(measured, 'The direction of the face')
    return combined([...(turn ? [judgeTurn(face, turn)] : []), ...(nod ? [judgeNod(face, nod)] : [])])
  },
})

function judgeTurn({ turnDeg, confidence, doubts }: Face, deviation: Static<typeof Deviation>): Finding {
  const fix = () => 'Choose a frame in which the head angle meets the spec, or shoot again.'
  const finding = judgeDeviation({
    noun: 'The turn of the face',
    unit: '°',
    shortUnit: '°',
    place: (size, sign) =>
      sign === 0 ? 'straight to the camera' : `${size} to the ${sign < 0 ? 'left' : 'right'} of the frame`,
    sentence: (place) => `The face is turned ${place}`,
    either: 'of turn to either side',
    value: turnDeg,
    deviation,
    confidence,
    doubts,
    low: fix,
    high: fix,
  })
  return withDoubt(finding, turnDeg, deviationLimits(deviation), 'The turn of the face')
}

function judgeNod({ nodDeg, confidence, doubts }: Face, deviation: Static<typeof Deviation>): Finding {
  const finding = judgeDeviation({
    noun: 'The nod of the face',
    unit: '°',
    shortUnit: '°',
    place: (size, sign) => (sign === 0 ? 'level' : `${size} ${sign < 0 ? 'down' : 'up'}`),
    sentence: (place) => `The chin points ${place}`,
    either: 'of nod up or down',
    value: nodDeg,
    deviation,
    confidence,
    doubts,
    low: () => 'Choose a frame with the chin a little higher or the camera lower, or shoot again.',
    high: () => 'Choose a frame with the chin a little lower or the camera higher, or shoot again.',
  })
  return withDoubt(finding, nodDeg, deviationLimits(deviation), 'The nod of the face')
}

/** Turns a verdict into `unsure` when the angle is nearer to its limits than it can be measured. */
function withDoubt(finding: Finding, value: number | null, limits: Limits, noun: string): Finding {
  if (value === null || finding.verdict === 'unsure' || !tooNear(value, limits)) return finding
  const { fix: _, ...rest } = finding
  return {
    ...rest,
    verdict: 'unsure',
    measured: `about ${finding.measured}`,
    reason: `${noun} is too close to its limit: about ${finding.measured}, give or take ${ERROR_DEG}°. The spec asks for ${finding.expected}; check by eye.`,
  }
}

function tooNear(value: number, { min, max }: Limits): boolean {
  const near = (inside: number, limit: number) =>
    inside < 0 ? inside > -NEAR_DEG : inside < Math.max(NEAR_DEG, READS_LOW * limit)
  return near(max - value, max) || near(value - min, -min)
}
