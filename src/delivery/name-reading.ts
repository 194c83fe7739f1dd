import { type Static, Type } from '@sinclair/typebox'

const closed = { additionalProperties: false }

/** One thing wrong with a file's path. Facts only; the sentences live in the rule `file-name`. */
export const NameProblem = Type.Union([
  Type.Object(
    { kind: Type.Literal('no-match'), at: Type.Integer(), wanted: Type.String(), found: Type.String() },
    closed,
  ),
  Type.Object(
    { kind: Type.Literal('field'), field: Type.String(), wanted: Type.String(), found: Type.String() },
    closed,
  ),
  Type.Object(
    {
      kind: Type.Literal('deliverable'),
      found: Type.String(),
      nearest: Type.Union([Type.String(), Type.Null()]),
    },
    closed,
  ),
  Type.Object({ kind: Type.Literal('not-nfc'), composed: Type.String() }, closed),
  Type.Object({ kind: Type.Literal('windows'), part: Type.String(), why: Type.String() }, closed),
  Type.Object(
    {
      kind: Type.Literal('collision'),
      with: Type.String(),
      by: Type.Union([Type.Literal('case'), Type.Literal('normalization')]),
    },
    closed,
  ),
])
export type NameProblem = Static<typeof NameProblem>

/** What a file's path says of it. */
export const NameReading = Type.Object(
  {
    path: Type.String({ description: 'Relative to the delivery root, with /.' }),
    pattern: Type.Union([Type.String(), Type.Null()], {
      description: "The spec's naming pattern; null when it has none.",
    }),
    fields: Type.Record(Type.String(), Type.String(), {
      description: 'Values of the named fields, as far as they could be read.',
    }),
    deliverable: Type.Union([Type.String(), Type.Null()]),
    problems: Type.Array(NameProblem),
  },
  closed,
)
export type NameReading = Static<typeof NameReading>
