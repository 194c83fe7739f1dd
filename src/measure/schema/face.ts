import { type Static, Type } from '@sinclair/typebox'
import { Box, closed, Doubt, errorOf, orNull, Point } from './common.ts'

export const Face = Type.Object(
  {
    count: Type.Integer({ minimum: 0, description: 'Faces found.' }),
    score: Type.Number({
      minimum: 0,
      maximum: 1,
      description: 'Detector score of the largest face; 0 when none.',
    }),
    others: Type.Array(Type.Object({ box: Box, score: Type.Number() }, closed), {
      description: 'Faces beside the largest.',
    }),
    box: orNull(Box),
    leftEye: orNull(Point),
    rightEye: orNull(Point),
    eyeDistancePx: orNull(Type.Number({ description: 'Distance of the iris centers in full-size px.' })),
    tiltDeg: orNull(Type.Number({ description: 'Roll of the eye line, positive clockwise in the frame.' })),
    tiltErrorDeg: errorOf('tiltDeg'),
    turnDeg: orNull(
      Type.Number({
        description: 'Yaw: azimuth of the direction the face looks in; positive to the right of the frame.',
      }),
    ),
    turnErrorDeg: errorOf('turnDeg'),
    nodDeg: orNull(
      Type.Number({
        description:
          'Pitch: elevation of that direction above that of a head held level; positive when the chin is raised.',
      }),
    ),
    nodErrorDeg: errorOf('nodDeg'),
    confidence: Type.Number({ minimum: 0, maximum: 1 }),
    doubts: Type.Array(Doubt),
  },
  closed,
)
export type Face = Static<typeof Face>
