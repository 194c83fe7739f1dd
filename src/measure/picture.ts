import sharp from 'sharp'
import { labPlanes } from '../color/lab.ts'
import type { RgbPicture } from '../imaging/rgb-picture.ts'
import { measureBackground } from './backdrop/background.ts'
import { readBackdrop } from './backdrop-reading.ts'
import { type FaceGeometry, measureFace } from './face/face.ts'
import { findFaces, type LocatedFace } from './face/find-faces.ts'
import { scaledFace } from './face/located-face.ts'
import { loadFaceModel } from './face/networks/face-model.ts'
import type { DecodedPicture } from './file/decoded-picture.ts'
import { measureFinish } from './finish/finish.ts'
import { seeChin } from './head/chin.ts'
import { measureHead } from './head/head.ts'
import type {
  Background,
  Face,
  Finish,
  Head,
  MeasurementGroup,
  PictureSignature,
} from './schema/measurements.ts'
import { pictureSignature } from './signature.ts'

// Long edges of the copies that are measured, in px: a backdrop is smooth, a face needs more.
const BACKDROP_EDGE = 512
const FACE_EDGE = 1024

export interface PictureMeasurements {
  background?: Background
  face?: Face
  head?: Head
  finish?: Finish
  signature?: PictureSignature
}

/** Measures what the pixels show, as far as the groups ask for it. */
export async function measurePicture(
  picture: DecodedPicture,
  groups: readonly MeasurementGroup[],
): Promise<PictureMeasurements> {
  const result: PictureMeasurements = {}
  const wantsHead = groups.includes('head')
  const wantsFocus = groups.includes('focus')
  const wantsFinish = wantsFocus || groups.includes('finish')
  const wantsBackdrop = wantsHead || groups.includes('background')
  const wantsSignature = groups.includes('signature')
  const wantsFace = wantsHead || wantsFinish || groups.includes('face') || wantsSignature
  const small = wantsBackdrop ? await copyOf(picture, BACKDROP_EDGE) : null
  const lab = small && labPlanes(small.data, small.width * small.height)
  // Without the face nothing tells what else stands before the backdrop from the sitter.
  const reading = wantsFace || wantsBackdrop ? await readFace(picture) : null
  if (wantsFace && reading) result.face = reading.face
  if (small && lab && reading) {
    const geometry = reading.geometry && scaled(reading.geometry, small.width / reading.copy.width)
    const { backdrop, intrusions } = readBackdrop(lab, small.width, small.height, geometry)
    result.background = measureBackground(lab, backdrop, picture.transparentShare, intrusions)
    if (wantsHead) result.head = measureHead(backdrop, result.background, reading.face, geometry)
  }
  if (wantsFinish && reading)
    result.finish = measureFinish(picture, reading.located, reading.face, wantsFocus)
  if (wantsSignature && reading) result.signature = pictureSignature(reading.copy, reading.geometry)
  return result
}

interface FaceReading {
  readonly face: Face
  /** In pixels of the picture searched. */
  readonly geometry: FaceGeometry | null
  /** The face in pixels of the full-size picture. */
  readonly located: LocatedFace | null
  /** The picture searched. */
  readonly copy: RgbPicture
}

async function readFace(picture: DecodedPicture): Promise<FaceReading> {
  const copy = await copyOf(picture, FACE_EDGE)
  const faces = await findFaces(await loadFaceModel(), copy)
  const scale = picture.width / copy.width
  const located = faces && scaledFace(faces.largest, scale)
  const { face, landmarks } = measureFace(faces, copy.width, copy.height, scale)
  const geometry = faces && landmarks && { ...landmarks, ...seeChin(copy, faces.largest, landmarks) }
  return { face, geometry, located, copy }
}

/** The same geometry in pixels of a picture `factor` times as large. */
function scaled(geometry: FaceGeometry, factor: number): FaceGeometry {
  const point = ({ x, y }: { x: number; y: number }) => ({ x: x * factor, y: y * factor })
  return {
    leftEye: point(geometry.leftEye),
    rightEye: point(geometry.rightEye),
    midEyes: point(geometry.midEyes),
    chin: point(geometry.chin),
    chinError: geometry.chinError * factor,
    axis: geometry.axis,
    eyeDistance: geometry.eyeDistance * factor,
  }
}

/** A copy at most `edge` px long; a smaller picture is taken as it is. */
async function copyOf({ data, width, height }: DecodedPicture, edge: number): Promise<RgbPicture> {
  if (Math.max(width, height) <= edge) return { data, width, height }
  const { data: copy, info } = await sharp(data, { raw: { width, height, channels: 3 } })
    .resize(edge, edge, { fit: 'inside', kernel: 'linear' })
    .raw()
    .toBuffer({ resolveWithObject: true })
  return { data: copy, width: info.width, height: info.height }
}
