import { type Static, Type } from '@sinclair/typebox'

const Offset = Type.Integer({ minimum: 0 })
const Length = Type.Integer({ minimum: 1 })

/** A part of a picture as displayed (EXIF orientation applied), in whole px from its top left corner. */
export const CropBox = Type.Object(
  { leftPx: Offset, topPx: Offset, widthPx: Length, heightPx: Length },
  {
    additionalProperties: false,
    description: 'The part of the picture to keep: the crop that meets every rule on the framing.',
  },
)
export type CropBox = Static<typeof CropBox>
