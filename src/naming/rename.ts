import { type Static, Type } from '@sinclair/typebox'

const closed = { additionalProperties: false }
const From = Type.String({ description: 'Path of the file relative to the delivery root, with /.' })

/**
 * What is to become of a file whose name is wrong.
 *
 * - `to`: its exact name, free to be taken
 * - `sameAs`: it is a copy of that file and to be deleted; `by` says whether byte for byte or as a picture
 * - `refused: clash`: its name would be `wanted`, but `others` have or claim that name and are other pictures
 * - `refused: format`: its name would be `wanted`, which is that of another format than it has
 */
export const Rename = Type.Union([
  Type.Object({ from: From, to: Type.String() }, closed),
  Type.Object(
    {
      from: From,
      sameAs: Type.String(),
      by: Type.Union([Type.Literal('bytes'), Type.Literal('picture')]),
    },
    closed,
  ),
  Type.Object(
    { from: From, refused: Type.Literal('clash'), wanted: Type.String(), others: Type.Array(Type.String()) },
    closed,
  ),
  Type.Object({ from: From, refused: Type.Literal('format'), wanted: Type.String() }, closed),
])
export type Rename = Static<typeof Rename>
