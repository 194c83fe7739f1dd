import { type Static, Type } from '@sinclair/typebox'
import { closed, orNull, sureness } from './common.ts'

const MatchedEye = Type.Object(
  {
    irisPx: Type.Number({ exclusiveMinimum: 0, description: 'Width of the iris, px.' }),
    catchlight: orNull(
      Type.Object(
        {
          across: Type.Number({ description: 'To the right in the frame, along the line of the eyes.' }),
          down: Type.Number({ description: 'Down from that line.' }),
        },
        {
          ...closed,
          description:
            'Where the greatest light is reflected, from the middle of the iris in its radii; null where none is.',
        },
      ),
    ),
  },
  closed,
)

export const EyePair = Type.Object(
  {
    left: orNull(MatchedEye),
    right: orNull(MatchedEye),
    irisDifferencePct: orNull(
      Type.Number({
        minimum: 0,
        description: 'How much wider one iris is than the other, in percent of that.',
      }),
    ),
    catchlightsApart: orNull(
      Type.Number({
        minimum: 0,
        description:
          'How far apart the lights in both irises stand when one iris is laid over the other, in its radii, beyond what the axes of two eyes differ; of several lights the two that fit best. Null where an iris reflects none.',
      }),
    ),
    ...sureness,
  },
  closed,
)
/** What both eyes of one frame have alike. */
export type EyePair = Static<typeof EyePair>
