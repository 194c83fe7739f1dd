import { type Static, Type } from '@sinclair/typebox'
import { closed, orNull, sureness } from './common.ts'

export const SkinTint = Type.Object(
  {
    lab: orNull(
      Type.Object(
        { L: Type.Number(), a: Type.Number(), b: Type.Number() },
        {
          ...closed,
          description: 'CIELAB (D50): the median of forehead, cheeks and cheekbones without shine and shade.',
        },
      ),
    ),
    hueDeg: orNull(Type.Number({ minimum: 0, maximum: 360, description: 'CIE hue angle of that color.' })),
    hueErrorDeg: orNull(
      Type.Number({
        minimum: 0,
        description:
          'How far that may be off to either side, by what the parts of the face disagree, degrees.',
      }),
    ),
    ...sureness,
  },
  closed,
)
/** The color of bare skin in the file. */
export type SkinTint = Static<typeof SkinTint>
