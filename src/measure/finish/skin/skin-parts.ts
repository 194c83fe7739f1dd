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

/** Outline of the forehead's upper half. @choice up to the hairline of the mesh, where hair and scarves may lie. */
const UPPER_FOREHEAD = [108, 69, 104, 103, 67, 109, 10, 338, 297, 332, 333, 299, 337, 151]

/** Outline of the cheekbone at the left of the frame. @choice beside the cheek, below a lens, where light from the side shines most. */
const CHEEKBONE = [50, 187, 147, 123]

/** Outline of the chin. @choice below the lip and above the edge of the jaw, where a beard may be. */
const CHIN = [194, 182, 106, 204, 211, 32, 140, 176, 152, 400, 369, 262, 431, 424, 335, 406, 418]

/** The same points on the other side. @source the 468-point face mesh of MediaPipe, canonical face model. */
const RIGHT: Readonly<Record<number, number>> = {
  50: 280,
  36: 266,
  205: 425,
  187: 411,
  147: 376,
  123: 352,
}

/** Parts of the face that are bare skin on nearly everybody: no eyes, brows, lips, nostrils, lenses or beard. */
export function skinParts({ mesh }: LocatedFace): ReadonlyMap<SkinPart, Outline> {
  return new Map<SkinPart, Outline>([
    ['forehead', outlineOf(mesh, FOREHEAD)],
    ['nose', outlineOf(mesh, NOSE)],
    ['left-cheek', outlineOf(mesh, CHEEK)],
    ['right-cheek', outlineOf(mesh, mirrored(CHEEK))],
  ])
}

/** Parts that are bare skin on many people, and hair or cloth on others. */
export function perhapsSkinParts({ mesh }: LocatedFace): ReadonlyMap<SkinPart, Outline> {
  return new Map<SkinPart, Outline>([
    ['upper-forehead', outlineOf(mesh, UPPER_FOREHEAD)],
    ['left-cheekbone', outlineOf(mesh, CHEEKBONE)],
    ['right-cheekbone', outlineOf(mesh, mirrored(CHEEKBONE))],
    ['chin', outlineOf(mesh, CHIN)],
  ])
}

/** The outline through some points of a mesh, px. */
export function outlineOf(mesh: LocatedFace['mesh'], indexes: readonly number[]): Outline {
  return indexes.map((index) => {
    const point = mesh[index]
    if (!point) throw new Error(`The face mesh has ${mesh.length} points; point ${index} was expected.`)
    return [point[0], point[1]]
  })
}

function mirrored(indexes: readonly number[]): number[] {
  return indexes.map((index) => RIGHT[index] ?? index)
}
