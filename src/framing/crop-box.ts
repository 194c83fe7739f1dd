import { type Static, Type } from '@sinclair/typebox'

const closed = { additionalProperties: false }
const Length = Type.Integer({ minimum: 1 })
const Px = Type.Integer({ minimum: 0 })

/**
 * A part of a picture as displayed (EXIF orientation applied), in whole px from its top left corner; left and top are
 * negative where it reaches beyond the picture.
 */
export const CropBox = Type.Object(
  { leftPx: Type.Integer(), topPx: Type.Integer(), widthPx: Length, heightPx: Length },
  closed,
)
export type CropBox = Static<typeof CropBox>

/** How far a part reaches beyond each side of the picture, in px. */
export const Missing = Type.Object({ abovePx: Px, belowPx: Px, leftPx: Px, rightPx: Px }, closed)
export type Missing = Static<typeof Missing>

/** The one crop of a file that meets all rules on its framing. */
export const CropTold = Type.Object(
  {
    ...CropBox.properties,
    scaleTo: Type.Optional(
      Type.Object(
        { widthPx: Length, heightPx: Length },
        { ...closed, description: 'The size to deliver the crop at; absent where its own size is right.' },
      ),
    ),
    missing: Type.Optional(Missing),
  },
  {
    ...closed,
    description:
      'The one crop that meets every rule on the framing, in px of this file from its top left corner. Where it reaches beyond the file, `missing` says by how much, and the uncropped frame is needed; where scaleTo is larger than the crop, the original at its full size is.',
  },
)
export type CropTold = Static<typeof CropTold>
