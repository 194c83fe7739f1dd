import { type Static, Type } from '@sinclair/typebox'
import { closed } from './common.ts'

const Grid = Type.Object(
  {
    columns: Type.Integer({ minimum: 1, maximum: 64 }),
    rows: Type.Integer({ minimum: 1, maximum: 64 }),
    luma: Type.String({
      maxLength: 5464,
      pattern: '^[A-Za-z0-9+/]+=*$',
      description:
        'Base64 of one byte a cell, row by row from the top left: luma 1 to 255; 0 outside the frame.',
    }),
  },
  closed,
)
/** A small grid of luma. */
export type SignatureGrid = Static<typeof Grid>

export const PictureSignature = Type.Object(
  {
    face: Type.Union([Grid, Type.Null()], {
      description: 'The face, laid out by the irises; null without a face.',
    }),
    head: Type.Union([Grid, Type.Null()], { description: 'Head, hair and shoulders, coarser.' }),
    frame: Grid,
  },
  {
    ...closed,
    description:
      'What of a picture stays the same when it is saved again, resized or cropped. Made from a face: kept in memory, in the parts of a divided run and, sealed, in the cache.',
  },
)
export type PictureSignature = Static<typeof PictureSignature>
