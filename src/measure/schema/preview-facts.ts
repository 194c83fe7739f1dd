import { type Static, type TSchema, Type } from '@sinclair/typebox'

const closed = { additionalProperties: false }
const orNull = <S extends TSchema>(schema: S) => Type.Union([schema, Type.Null()])
const number = (description: string) => orNull(Type.Number({ description }))
const box = (description: string) =>
  orNull(
    Type.Object(
      { x: Type.Number(), y: Type.Number(), width: Type.Number(), height: Type.Number() },
      { ...closed, description },
    ),
  )
const words = <W extends string>(names: readonly W[], description: string) =>
  orNull(
    Type.Unsafe<W>(
      Type.Union(
        names.map((name) => Type.Literal(name)),
        { description },
      ),
    ),
  )

const comparison = {
  shows: words(
    ['same', 'other-crop', 'turned', 'other-tones', 'other-retouch', 'other-picture'],
    'What the preview shows beside the picture, as far as its size lets tell; null when in doubt.',
  ),
  doubt: words(
    ['not-read', 'picture-not-decoded', 'too-small', 'flat', 'hardly-different'],
    'Why it could not be told what the preview shows.',
  ),
  similarity: number('Correlation of L* where they lie over each other best, up to 1.'),
  tones: number('90th percentile of the change of color everywhere alike, in ΔE*ab (1976).'),
  largestChange: number(
    'Largest difference in one place beyond what making small does, in ΔE*ab, a* and b* halved.',
  ),
  changed: box('Around all places that differ, in fractions of the frame.'),
  changedPct: number('Share of the frame that differs.'),
  crop: box(
    'The part of the preview that the picture takes, in fractions of the preview; beyond 0..1 where the picture shows more.',
  ),
  turn: orNull(Type.String({ description: 'How the picture is turned beside the preview.' })),
}
export const Comparison = Type.Object(comparison, closed)
export type Comparison = Static<typeof Comparison>

export const Preview = Type.Object(
  {
    where: Type.String({ description: 'Where it stands, such as "EXIF thumbnail".' }),
    bytes: orNull(Type.Integer({ minimum: 0 })),
    widthPx: orNull(Type.Integer({ description: 'As stored.' })),
    heightPx: orNull(Type.Integer()),
    ...comparison,
  },
  closed,
)
export type Preview = Static<typeof Preview>

export const NO_COMPARISON: Comparison = {
  shows: null,
  doubt: null,
  similarity: null,
  tones: null,
  largestChange: null,
  changed: null,
  changedPct: null,
  crop: null,
  turn: null,
}
