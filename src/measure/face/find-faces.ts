import sharp from 'sharp'
import type { RgbPicture } from '../../imaging/rgb-picture.ts'
import { eyeTiltDeg } from './eye-tilt.ts'
import type { FaceModel, MeshPoint, ModelFace } from './networks/face-model.ts'
import type { IrisCenter } from './networks/iris-model.ts'

/** Largest lean at which the mesh is trusted, degrees: it is trained on level faces and drifts on others. @choice no source; sitters drawn with a lean of up to 25° are read within 0.7° so. */
const LEVEL_DEG = 4

/** How often a face is leveled at most. @choice no source: the second round seldom has more than a degree to do. */
const ROUNDS = 3

/** What fills the corners of a picture that was turned, code. @choice mid-gray, which has no edge that looks like a face. */
const GRAY = 128

/** A face with its irises, the left in the frame first, in pixels of the picture. */
export interface LocatedFace extends ModelFace {
  readonly irises: readonly [IrisCenter, IrisCenter]
}

export interface FoundFaces {
  readonly largest: LocatedFace
  readonly others: readonly ModelFace[]
}

/**
 * Finds the faces in a picture; null when there is none. When the largest leans, the picture is turned so that its
 * eyes are level and searched again, until they are; what is found is told in the picture as it stands.
 */
export async function findFaces(model: FaceModel, picture: RgbPicture): Promise<FoundFaces | null> {
  const [first, ...others] = bySize(await model.find(picture))
  if (!first) return null
  let largest: LocatedFace = { ...first, irises: await model.findIrises(picture, first) }
  let turned = 0
  for (let round = 0; round < ROUNDS; round++) {
    const lean = eyeTiltDeg(largest.irises) - turned
    if (Math.abs(lean) <= LEVEL_DEG) break
    turned += lean
    const again = await findTurned(model, picture, turned, first)
    if (!again) break
    largest = again
  }
  return { largest, others }
}

/**
 * Searches the picture turned counter-clockwise by `degrees` for the face at the place of `wanted`, and tells it in the
 * picture as it stands.
 */
async function findTurned(
  model: FaceModel,
  picture: RgbPicture,
  degrees: number,
  wanted: ModelFace,
): Promise<LocatedFace | undefined> {
  const { data, width, height } = picture
  const { data: turnedData, info } = await sharp(data, { raw: { width, height, channels: 3 } })
    .rotate(-degrees, { background: { r: GRAY, g: GRAY, b: GRAY } })
    .raw()
    .toBuffer({ resolveWithObject: true })
  const turned = { data: turnedData, width: info.width, height: info.height }
  const radians = (degrees * Math.PI) / 180
  const cos = Math.cos(radians)
  const sin = Math.sin(radians)
  const back = (x: number, y: number): [number, number] => {
    const dx = x - turned.width / 2
    const dy = y - turned.height / 2
    return [dx * cos - dy * sin + width / 2, dx * sin + dy * cos + height / 2]
  }
  for (const face of bySize(await model.find(turned))) {
    const mesh = face.mesh.map(([x, y, z]): MeshPoint => [...back(x, y), z])
    const upright = { ...face, mesh, box: boundsOf(mesh) }
    if (!overlaps(upright, wanted)) continue
    const [left, right] = await model.findIrises(turned, face)
    return { ...upright, irises: [back(...left), back(...right)] }
  }
  return undefined
}

function boundsOf(mesh: readonly MeshPoint[]): ModelFace['box'] {
  const xs = mesh.map(([x]) => x)
  const ys = mesh.map(([, y]) => y)
  const left = Math.min(...xs)
  const top = Math.min(...ys)
  return [left, top, Math.max(...xs) - left, Math.max(...ys) - top]
}

function bySize(faces: readonly ModelFace[]): ModelFace[] {
  return [...faces].sort((a, b) => b.box[2] * b.box[3] - a.box[2] * a.box[3])
}

/** True when the middle of one face's box lies in the other's. */
function overlaps({ box: [x, y, w, h] }: ModelFace, { box: [left, top, width, height] }: ModelFace): boolean {
  const middleX = x + w / 2
  const middleY = y + h / 2
  return middleX >= left && middleX <= left + width && middleY >= top && middleY <= top + height
}
