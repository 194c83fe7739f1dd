import { type Static, Type } from '@sinclair/typebox'
import { closed, Doubt, errorOf, orNull, Point, percent } from './common.ts'

export const Head = Type.Object(
  {
    crown: orNull(Point),
    chin: orNull(Point),
    chinErrorPct: errorOf('the height of the chin in the frame, in % of its height,'),
    headroomPct: orNull(percent('Crown y x 100.')),
    crownErrorPct: errorOf('headroomPct'),
    eyeLinePct: orNull(percent('Mean iris y x 100, from the top edge.')),
    eyeLineErrorPct: errorOf('eyeLinePct'),
    headHeightPct: orNull(percent('Crown to chin along the face axis, projected on the height.')),
    headHeightErrorPct: errorOf('headHeightPct'),
    offCenterPct: orNull(percent('(Mid-eyes x - 0.5) x 100; positive right.')),
    offCenterErrorPct: errorOf('offCenterPct'),
    confidence: Type.Number({ minimum: 0, maximum: 1 }),
    doubts: Type.Array(Doubt),
  },
  closed,
)
export type Head = Static<typeof Head>
