import { labPlanes } from '../color/lab.ts'
import type { RgbPicture } from '../imaging/rgb-picture.ts'
import { measureBackground } from './backdrop/background.ts'
import { readBackdrop } from './backdrop-reading.ts'
import { measureFace } from './face/face.ts'
import { findFaces } from './face/find-faces.ts'
import { loadFaceModel } from './face/networks/face-model.ts'
import { inPixelsOf, type PlacedFace } from './face/placed-face.ts'
import type { DecodedPicture } from './file/decoded-picture.ts'
import { measureFinish } from './finish/finish.ts'
import { readChin } from './head/chin.ts'
import { measureHead } from './head/head.ts'
import type { MeasurementGroup, Measurements } from './schema/measurements.ts'
import { pictureSignature } from './signature.ts'
import { BACKDROP_LONG_EDGE_PX, copyOf, FACE_LONG_EDGE_PX } from './working-copy.ts'

export type PictureMeasurements = Partial<
  Pick<Measurements, 'background' | 'face' | 'head' | 'finish' | 'signature'>
>

/**
 * Measures what the pixels show, as far as the groups need it. The face is looked for in one copy of the picture, the
 * backdrop is read in a smaller one and the finish at full size; `inPixelsOf` places the face in each.
 */
export async function measurePicture(
  picture: DecodedPicture,
  groups: readonly MeasurementGroup[],
): Promise<PictureMeasurements> {
  const wants = wantedBy(groups)
  // Every group needs the face: without it, the sitter can't be told apart from other things in front of the backdrop.
  const reading = wants.face || wants.backdrop ? await readFace(picture) : null
  if (!reading) return {}
  const { face, placed, copy } = reading
  const result: PictureMeasurements = {}
  if (wants.face) result.face = face
  if (wants.backdrop) {
    const small = await copyOf(picture, BACKDROP_LONG_EDGE_PX)
    const lab = labPlanes(small.data, small.width * small.height)
    const geometry = placed && inPixelsOf(small, placed).geometry
    const { backdrop, intrusions } = readBackdrop(lab, small.width, small.height, geometry)
    result.background = measureBackground(lab, backdrop, picture.transparentShare, intrusions)
    if (wants.head) result.head = measureHead(backdrop, result.background, face, geometry)
  }
  if (wants.finish) {
    const located = placed && inPixelsOf(picture, placed).located
    result.finish = measureFinish(picture, located, face, wants.focus)
  }
  if (wants.signature) result.signature = pictureSignature(copy, placed?.geometry ?? null)
  return result
}

function wantedBy(groups: readonly MeasurementGroup[]) {
  const head = groups.includes('head')
  const focus = groups.includes('focus')
  const finish = focus || groups.includes('finish')
  const signature = groups.includes('signature')
  const backdrop = head || groups.includes('background')
  const face = head || finish || signature || groups.includes('face')
  return { backdrop, face, head, finish, focus, signature }
}

interface FaceReading {
  readonly face: NonNullable<PictureMeasurements['face']>
  /** In pixels of the copy that was searched; null without a face. */
  readonly placed: PlacedFace | null
  readonly copy: RgbPicture
}

async function readFace(picture: DecodedPicture): Promise<FaceReading> {
  const copy = await copyOf(picture, FACE_LONG_EDGE_PX)
  const faces = await findFaces(await loadFaceModel(), copy)
  const { face, landmarks } = measureFace(faces, copy.width, copy.height, picture.width / copy.width)
  if (!faces || !landmarks) return { face, placed: null, copy }
  const geometry = { ...landmarks, ...readChin(copy, faces.largest, landmarks, face) }
  return { face, placed: { width: copy.width, located: faces.largest, geometry }, copy }
}
