import type { RgbPicture } from '../../imaging/rgb-picture.ts'
import { type FoundIrises, findIrises } from './irises/find-irises.ts'
import { meshEyes } from './irises/mesh-eyes.ts'
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
}

/**
 * Finds the faces in a picture; null when there is none. The mesh of the largest is fitted anew in a square that is turned with
 * its eyes, until they are level in it.
 * @param picture the copy that is searched, and whose pixels the places are in
 * @param full the picture as it is, for the irises
 */
export async function findFaces(
  model: FaceModel,
  picture: RgbPicture,
  full: RgbPicture = picture,
): Promise<FoundFaces | null> {
  const [first, ...others] = bySize(await model.find(picture))
  if (!first) return null
  const face = await leveled(model, picture, first)
  const factor = full.width / picture.width
  const { irises, irisesSeen } = findIrises(
    full,
    face.mesh.map(([x, y, z]): MeshPoint => [x * factor, y * factor, z * factor]),
  )
  const [[leftX, leftY], [rightX, rightY]] = irises
  return {
    largest: {
      ...face,
      irises: [
        [leftX / factor, leftY / factor],
        [rightX / factor, rightY / factor],
      ],
      irisesSeen,
    },
    others,
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
