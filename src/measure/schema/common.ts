import { type Static, type TSchema, Type } from '@sinclair/typebox'

export const closed = { additionalProperties: false }
export const orNull = <S extends TSchema>(schema: S) => Type.Union([schema, Type.Null()])
export const percent = (description: string) => Type.Number({ description })

/** How far a value may be off to either side, in its unit: 95 of 100 true values are within it. Null where there is no value. */
export const errorOf = (value: string) =>
  orNull(
    Type.Number({
      minimum: 0,
      description: `How far ${value} may be off to either side: 95 of 100 true values are within it.`,
    }),
  )

/** A place in the picture as displayed: fractions of width (x, right) and height (y, down), origin top left. */
export const Point = Type.Object({ x: Type.Number(), y: Type.Number() }, closed)
export type Point = Static<typeof Point>

/** A rectangle in the picture as displayed, in fractions of width and height. */
export const Box = Type.Object(
  { x: Type.Number(), y: Type.Number(), width: Type.Number(), height: Type.Number() },
  closed,
)
export type Box = Static<typeof Box>

/** Why a measured value is not to be trusted. Codes; the sentences live with the rules. */
export const Doubt = Type.Union([
  Type.Literal('backdrop-not-plain'),
  Type.Literal('backdrop-too-small'),
  Type.Literal('backdrop-transparent'),
  Type.Literal('outline-too-small'),
  Type.Literal('holes-unclear'),
  Type.Literal('no-face'),
  Type.Literal('face-uncertain'),
  Type.Literal('face-too-small'),
  Type.Literal('face-turned'),
  Type.Literal('crown-out-of-frame'),
  Type.Literal('crown-merges-with-backdrop'),
  Type.Literal('crown-implausible'),
  Type.Literal('crown-unclear'),
  Type.Literal('eyes-implausible'),
  Type.Literal('chin-implausible'),
  Type.Literal('skin-too-small'),
  Type.Literal('skin-too-dark'),
  Type.Literal('skin-colorless'),
  Type.Literal('skin-grainy'),
  Type.Literal('cheek-covered'),
  Type.Literal('eyes-too-small'),
  Type.Literal('lenses-dark'),
  Type.Literal('lids-made-up'),
  Type.Literal('frames-unclear'),
  Type.Literal('eyes-too-small-for-focus'),
  Type.Literal('eyes-too-small-for-halos'),
  Type.Literal('halos-of-grain'),
  Type.Literal('picture-too-small-for-traces'),
  Type.Literal('eyes-without-edges'),
  Type.Literal('eyes-behind-reflections'),
  Type.Literal('irises-unclear'),
])
export type Doubt = Static<typeof Doubt>

/** How far a value is to be trusted. */
export const sureness = {
  confidence: Type.Number({ minimum: 0, maximum: 1 }),
  doubts: Type.Array(Doubt),
}
