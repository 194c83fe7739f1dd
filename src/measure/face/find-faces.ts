import type { PicturePart, Rectangle } from '../../imaging/picture-part.ts'
import type { RgbPicture } from '../../imaging/rgb-picture.ts'
import type { PictureParts } from '../file/picture-parts.ts'
import { type FoundIrises, findIrises } from './irises/find-irises.ts'
import { meshEyes, type Place } from './irises/mesh-eyes.ts'
import type { FaceModel, MeshPoint, ModelFace } from './networks/face-model.ts'

/** Largest lean at which the mesh is trusted, radians: it is trained on level faces and drifts on others. @choice 4°, no source; sitters drawn with a lean of up to 25° are read within 0.7° so. */
const LEVEL = (4 * Math.PI) / 180

/** How often the mesh is fitted anew at most. @choice no source: the second time seldom has more than a degree to do. */
const ROUNDS = 3

/** A face with its irises, the left in the frame first, in pixels of the picture. */
export interface LocatedFace extends ModelFace, FoundIrises {}

export interface FoundFaces {
  readonly largest: LocatedFace
  readonly others: readonly ModelFace[]
  /** What is around the largest, at full size. */
  readonly near: PicturePart
}

/** How far beyond its mesh what belongs to a face is looked at, shares of the inter-eye distance. @choice the widest of what is read, beside the ears, reaches 0.3 */
const AROUND = 0.6

/**
 * Finds the faces in a picture; null when there is none. The mesh of the largest is fitted anew in a square that is turned with
 * its eyes, until they are level in it.
 * @param picture the copy that is searched, and whose pixels the places are in
 * @param full the picture at full size, for the irises
 */
export async function findFaces(
  model: FaceModel,
  picture: RgbPicture,
  full: Pick<PictureParts, 'width' | 'near'> = asItIs(picture),
): Promise<FoundFaces | null> {
  const [first, ...others] = bySize(await model.find(picture))
  if (!first) return null
  const face = await leveled(model, picture, first)
  const factor = full.width / picture.width
  const mesh = face.mesh.map(([x, y, z]): MeshPoint => [x * factor, y * factor, z * factor])
  const near = await full.near(around(mesh))
  const { left, top } = near
  const { irises, irisesSeen } = findIrises(
    near,
    mesh.map(([x, y, z]): MeshPoint => [x - left, y - top, z]),
  )
  const place = ([x, y]: Place): Place => [(left + x) / factor, (top + y) / factor]
  return {
    largest: { ...face, irises: [place(irises[0]), place(irises[1])], irisesSeen },
    others,
    near,
  }
}

function asItIs(picture: RgbPicture): Pick<PictureParts, 'width' | 'near'> {
  return { width: picture.width, near: async () => ({ ...picture, left: 0, top: 0 }) }
}

/** All of a face that is looked at. */
function around(mesh: readonly MeshPoint[]): Rectangle {
  const [[leftX, leftY], [rightX, rightY]] = meshEyes(mesh)
  const beyond = AROUND * Math.hypot(rightX - leftX, rightY - leftY)
  const [xs, ys] = [mesh.map(([x]) => x), mesh.map(([, y]) => y)]
  const [left, top] = [Math.min(...xs) - beyond, Math.min(...ys) - beyond]
  return {
    ...{ left, top },
    width: Math.max(...xs) + beyond - left,
    height: Math.max(...ys) + beyond - top,
  }
}

async function leveled(model: FaceModel, picture: RgbPicture, first: ModelFace): Promise<ModelFace> {
  let face = first
  for (let round = 0; round < ROUNDS; round++) {
    const lean = leanOf(face)
    face = await model.fitAgain(picture, face, lean)
    if (Math.abs(leanOf(face) - lean) <= LEVEL) break
  }
  return face
}

function leanOf({ mesh }: ModelFace): number {
  const [left, right] = meshEyes(mesh)
  return Math.atan2(right[1] - left[1], right[0] - left[0])
}

function bySize(faces: readonly ModelFace[]): ModelFace[] {
  return [...faces].sort((a, b) => b.box[2] * b.box[3] - a.box[2] * a.box[3])
}
