import { type Static, Type } from '@sinclair/typebox'
import { closed, Doubt, orNull, Point, percent } from './common.ts'

export const Head = Type.Object(
  {
    crown: orNull(Point),
    chin: orNull(Point),
    headroomPct: orNull(percent('Crown y x 100.')),
    eyeLinePct: orNull(percent('Mean iris y x 100, from the top edge.')),
    headHeightPct: orNull(percent('Crown to chin along the face axis, projected on the height.')),
    headHeightErrorPct: orNull(
      percent('How far headHeightPct may be off to either side: 95 of 100 true chins are within it.'),
    ),
    offCenterPct: orNull(percent('(Mid-eyes x - 0.5) x 100; positive right.')),
    confidence: Type.Number({ minimum: 0, maximum: 1 }),
    doubts: Type.Array(Doubt),
  },
  closed,
)
export type Head = Static<typeof Head>
