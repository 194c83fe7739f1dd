import type { PicturePart, Rectangle } from '../../imaging/picture-part.ts'
import type { RgbPicture } from '../../imaging/rgb-picture.ts'
import type { DecodedPicture } from './decoded-picture.ts'

/** Long edge of the copy on which the backdrop is measured, px. @choice a backdrop is smooth: more pixels only cost time */
export const BACKDROP_LONG_EDGE_PX = 512
/**
 * Long edge of the copy in which faces are looked for, px.
 * @choice an iris is read in a square of 64 px, which a face of a third of the frame fills at this size
 */
export const FACE_LONG_EDGE_PX = 1024

/** A picture that is looked at in a small copy first, and then where the face is. */
export interface PictureParts {
  /** As displayed, px. */
  readonly width: number
  readonly height: number
  /** Share of the pixels that are not opaque, 0..1. */
  readonly transparentShare: number
  /** All of it at full size; null where only parts are looked at. */
  readonly whole: DecodedPicture | null
  /** A copy at most `edge` px long, that for faces or a smaller one. */
  copy(edge: number): Promise<RgbPicture>
  /**
   * The pixels of a rectangle at full size, or more of them. To be called once, since what is damaged may be found only here.
   * @param place null when none are needed
   * @throws DamagedPicture when the picture can't be decoded to its last row
   */
  near(place: Rectangle | null): Promise<PicturePart>
}

/** Thrown of a picture that turns out to be damaged while parts of it are read. */
export class DamagedPicture extends Error {}
