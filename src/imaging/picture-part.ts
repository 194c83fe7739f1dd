import type { RgbPicture } from './rgb-picture.ts'

/** A rectangle, px; its upper left corner may lie between pixels and outside of a picture. */
export interface Rectangle {
  readonly left: number
  readonly top: number
  readonly width: number
  readonly height: number
}

/** A rectangle of a picture at full size, with the place of its upper left pixel. */
export interface PicturePart extends RgbPicture {
  readonly left: number
  readonly top: number
}
