import sharp from 'sharp'
import { eyeTiltDeg } from './face.ts'
import type { FaceModel, MeshPoint, ModelFace } from './face-model.ts'
import type { RgbPicture } from './rgb-picture.ts'

// The mesh model is trained on level faces: on one that leans more than this it drifts.
const LEVEL_DEG = 4
const ROUNDS = 3

/**
 * Finds the faces in a picture, the largest first. When the largest leans, the picture is turned so that its eyes
 * are level and searched again, until they are; what is found is told in the picture as it stands.
 */
export async function findFaces(model: FaceModel, picture: RgbPicture): Promise<ModelFace[]> {
  const [largest, ...others] = bySize(await model.find(picture))
  if (!largest) return []
  let best = largest
  let turned = 0
  for (let round = 0; round < ROUNDS; round++) {
    const lean = eyeTiltDeg(best) - turned
    if (Math.abs(lean) <= LEVEL_DEG) break
    turned += lean
    const again = await searchTurned(model, picture, turned)
    const same = bySize(again).find((face) => overlaps(face, largest))
    if (!same) break
    best = same
  }
  return [best, ...others]
}

/** Searches the picture turned counter-clockwise by `degrees`, and tells the faces in the picture as it stands. */
async function searchTurned(model: FaceModel, picture: RgbPicture, degrees: number): Promise<ModelFace[]> {
  const { data, width, height } = picture
  const { data: turned, info } = await sharp(data, { raw: { width, height, channels: 3 } })
    .rotate(-degrees, { background: { r: 128, g: 128, b: 128 } })
    .raw()
    .toBuffer({ resolveWithObject: true })
  const faces = await model.find({ data: turned, width: info.width, height: info.height })
  const radians = (degrees * Math.PI) / 180
  const cos = Math.cos(radians)
  const sin = Math.sin(radians)
  const back = ([x, y, z]: MeshPoint): MeshPoint => {
    const dx = x - info.width / 2
    const dy = y - info.height / 2
    return [dx * cos - dy * sin + width / 2, dx * sin + dy * cos + height / 2, z]
  }
  return faces.map((face) => {
    const mesh = face.mesh.map(back)
    return { ...face, mesh, box: boundsOf(mesh) }
  })
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
