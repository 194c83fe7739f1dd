import { type Static, Type } from '@sinclair/typebox'
import { FACE_MOST_NOD_DEG, FACE_MOST_TURN_DEG } from '../../measure/schema/gates.ts'
import type { Face } from '../../measure/schema/measurements.ts'
import type { Finding } from '../contract/outcome.ts'
import { defineRule } from '../contract/rule.ts'
import { emptyRange } from '../judging/band.ts'
import { combined } from '../judging/combined.ts'
import { Deviation, deviationLimits, judgeDeviation } from '../judging/deviation.ts'
import { unmeasured } from '../judging/unmeasured.ts'
import { ERROR_NOTE } from '../judging/within-error.ts'

export const facing = defineRule({
  id: 'facing',
  severity: 'picture',
  dependsOn: 'scene',
  text: {
    title: 'Turn (yaw) and nod (pitch) of the head',
    measures: `The direction that the face points in, from the face mesh, in degrees. Turn (yaw) is positive to the right of the frame; nod (pitch) is positive with the chin raised above level. Both are estimates, good to about 4° of turn and 6° of nod on faces that look ahead and less on others. ${ERROR_NOTE} Limits narrower than that half make every portrait unsure. Faces turned by more than ${FACE_MOST_TURN_DEG}° or nodded by more than ${FACE_MOST_NOD_DEG}° are unsure. Frontal is 0° in both (ANSI/NIST-ITL 1-2011 Update 2013, Annex E.7.2). Whether a turn is a fault is for the client to say.`,
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

function judgeTurn(
  { turnDeg, turnErrorDeg, confidence, doubts }: Face,
  deviation: Static<typeof Deviation>,
): Finding {
  const fix = () => 'Choose a frame in which the head angle meets the spec, or shoot again.'
  return judgeDeviation({
    noun: 'The turn of the face',
    unit: '°',
    shortUnit: '°',
    place: (size, sign) =>
      sign === 0 ? 'straight to the camera' : `${size} to the ${sign < 0 ? 'left' : 'right'} of the frame`,
    sentence: (place) => `The face is turned ${place}`,
    either: 'of turn to either side',
    value: turnDeg,
    error: turnErrorDeg,
    deviation,
    confidence,
    doubts,
    low: fix,
    high: fix,
  })
}

function judgeNod(
  { nodDeg, nodErrorDeg, confidence, doubts }: Face,
  deviation: Static<typeof Deviation>,
): Finding {
  return judgeDeviation({
    noun: 'The nod of the face',
    unit: '°',
    shortUnit: '°',
    place: (size, sign) => (sign === 0 ? 'level' : `${size} ${sign < 0 ? 'down' : 'up'}`),
    sentence: (place) => `The chin points ${place}`,
    either: 'of nod up or down',
    value: nodDeg,
    error: nodErrorDeg,
    deviation,
    confidence,
    doubts,
    low: () => 'Choose a frame with the chin a little higher or the camera lower, or shoot again.',
    high: () => 'Choose a frame with the chin a little lower or the camera higher, or shoot again.',
  })
}
