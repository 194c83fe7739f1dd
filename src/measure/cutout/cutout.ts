import type { RgbPicture } from '../../imaging/rgb-picture.ts'
import { inPixelsOf, type PlacedFace } from '../face/placed-face.ts'
import { type Mask, silhouetteOf } from '../head/silhouette.ts'
import { FRINGE_LEAST_EYE_DISTANCE_PX } from '../schema/gates.ts'
import type { Background } from '../schema/measurements.ts'
import { measureFringe } from './fringe.ts'
import { findHoles } from './holes.ts'

export type Cutout = Pick<Background, 'fringe' | 'holes'>

/** Where it was not looked for, or can't be told. */
export const UNKNOWN_CUTOUT: Cutout = { fringe: null, holes: null }

/**
 * What a mask leaves on a sitter who was put before another backdrop.
 * @param picture at full size
 * @param copy in which the face was found
 * @param backdrop of a smaller copy, 1 where a pixel is backdrop
 */
export function measureCutout(
  picture: RgbPicture,
  copy: RgbPicture,
  backdrop: Mask,
  placed: PlacedFace,
): Cutout {
  const { geometry } = inPixelsOf(backdrop, placed)
  const silhouette = silhouetteOf(backdrop, geometry)
  return {
    fringe: silhouette && measureFringe(picture, silhouette, backdrop.data, geometry.eyeDistance),
    holes:
      inPixelsOf(picture, placed).geometry.eyeDistance < FRINGE_LEAST_EYE_DISTANCE_PX
        ? null
        : findHoles(copy, placed.geometry),
  }
}
