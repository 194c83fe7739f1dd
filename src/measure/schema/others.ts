import { type Static, Type } from '@sinclair/typebox'
import { closed, orNull } from './common.ts'

/** A picture or an archive that a file holds beside the picture that was measured. */
export const Other = Type.Object(
  {
    what: Type.String({
      description:
        'A format ("jpeg", "png"), "zip", "7z", "rar" or "movie" behind the end of the picture; "page" of a TIFF; "item" or "movie" of an AVIF; "pdf" within the header.',
    }),
    count: Type.Integer({ minimum: 1 }),
    bytes: orNull(Type.Integer({ description: 'From its beginning to the end of the file.' })),
  },
  closed,
)
export type Other = Static<typeof Other>
