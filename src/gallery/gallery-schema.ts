import { type Static, Type } from '@sinclair/typebox'
import { TRAITS } from '../rules/delivery/set-traits.ts'

const closed = { additionalProperties: false }
const OrNull = Type.Union([Type.Number(), Type.Null()])

/** Portraits that are published already, as numbers only: no names, no pictures, nothing that shows a face. */
export const GalleryFile = Type.Object(
  {
    kind: Type.Literal('portrait gallery'),
    measurer: Type.Integer({ description: 'Version of the measurements that the numbers follow.' }),
    portraits: Type.Array(
      Type.Object(
        {
          deliverable: Type.Union([Type.String(), Type.Null()]),
          traits: Type.Object(Object.fromEntries(TRAITS.map(({ id }) => [id, OrNull])), closed),
        },
        closed,
      ),
      { maxItems: 100_000 },
    ),
  },
  closed,
)
export type GalleryFile = Static<typeof GalleryFile>
