import type { Outline } from '../../../imaging/polygon.ts'
import type { LocatedFace } from '../../face/find-faces.ts'
import type { SkinPart } from '../../schema/measurements.ts'

/**
 * Outline of the cheek at the left of the frame, by points of the 468-point face mesh; RIGHT mirrors each.
 * @choice below a lens, above the corner of the mouth, and well inside the edge of the face, where its form turns away from the light.
 */
const CHEEK = [50, 36, 205, 187]

/** Outline of the nose. @choice without the wings, whose nostrils are dark on everybody. */
const NOSE = [6, 196, 236, 131, 45, 1, 275, 360, 456, 419]

/** Outline of the forehead. @choice its lower half, since fringes and scarves come down over the upper. */
const FOREHEAD = [107, 66, 105, 104, 69, 108, 151, 337, 299, 333, 334, 296, 336, 9]

/** The same points on the other side. @source the 468-point face mesh of MediaPipe, canonical face model. */
const RIGHT: Readonly<Record<number, number>> = { 50: 280, 36: 266, 205: 425, 187: 411 }

/** Parts of the face that are bare skin on nearly everybody: no eyes, brows, lips, nostrils, lenses or beard. */
export function skinParts({ mesh }: LocatedFace): ReadonlyMap<SkinPart, Outline> {
  const outline = (indexes: readonly number[]): Outline =>
    indexes.map((index) => {
      const point = mesh[index]
      if (!point) throw new Error(`The face mesh has ${mesh.length} points; point ${index} was expected.`)
      return [point[0], point[1]]
    })
  return new Map<SkinPart, Outline>([
    ['forehead', outline(FOREHEAD)],
    ['nose', outline(NOSE)],
    ['left-cheek', outline(CHEEK)],
    ['right-cheek', outline(CHEEK.map((index) => RIGHT[index] ?? index))],
  ])
}
