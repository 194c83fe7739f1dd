import { labPlanes } from '../color/lab.ts'
import type { PicturePart } from '../imaging/picture-part.ts'
import type { RgbPicture } from '../imaging/rgb-picture.ts'
import { measureBackground } from './backdrop/background.ts'
import { plainShare } from './backdrop/plainness.ts'
import { readBackdrop } from './backdrop-reading.ts'
import { measureCutout, UNKNOWN_CUTOUT } from './cutout/cutout.ts'
import { measureFace } from './face/face.ts'
import type { FaceGeometry } from './face/face-axes.ts'
import { findFaces } from './face/find-faces.ts'
import { loadFaceModel } from './face/networks/face-model.ts'
import { inPixelsOf, type PlacedFace, shiftedFace } from './face/placed-face.ts'
import type { DecodedPicture } from './file/decoded-picture.ts'
import { BACKDROP_LONG_EDGE_PX, FACE_LONG_EDGE_PX, type PictureParts } from './file/picture-parts.ts'
import { alphaOf, partsOf } from './file/working-copy.ts'
import { measureFinish } from './finish/finish.ts'
import { readChin } from './head/chin.ts'
import { readCrown, type Seen } from './head/crown-witnesses.ts'
import { measureHead } from './head/head.ts'
import { frameWindow, headWindow } from './person/person-mask.ts'
import { loadPersonModel } from './person/person-model.ts'
import { SURE } from './schema/confidence.ts'
import type { MeasurementGroup, Measurements } from './schema/measurements.ts'
import { pictureSignature } from './signature.ts'
import { findStraightening } from './straightening/straightening.ts'
import { filledMask } from './straightening/wedge-region.ts'

export type PictureMeasurements = Partial<
  Pick<Measurements, 'background' | 'face' | 'head' | 'finish' | 'signature'>
>

/**
 * Measures what the pixels show, as far as the groups need it. The face is looked for in one copy of the picture, the
 * backdrop is read in a smaller one and the finish at full size; `inPixelsOf` places the face in each.
 * @param isFrame whether it is as the camera made it: what retouching and export leave is not looked for then
 * @throws DamagedPicture when a picture in parts can't be decoded to its last row
 */
export async function measurePicture(
  whole: DecodedPicture | PictureParts,
  groups: readonly MeasurementGroup[],
  { isFrame = false } = {},
): Promise<PictureMeasurements> {
  const wants = wantedBy(groups)
  const edges = wants.backdrop ? [FACE_LONG_EDGE_PX, BACKDROP_LONG_EDGE_PX] : [FACE_LONG_EDGE_PX]
  const picture = 'near' in whole ? whole : partsOf(whole, edges)
  // Every group needs the face: without it, the sitter can't be told apart from other things in front of the backdrop.
  const seen = wants.face || wants.backdrop ? await readFace(picture) : null
  if (!seen) return {}
  const { face, placed, copy, near } = seen
  const result: PictureMeasurements = {}
  if (wants.face) result.face = face
  if (wants.backdrop) {
    const small = await picture.copy(BACKDROP_LONG_EDGE_PX)
    const lab = labPlanes(small.data, small.width * small.height)
    const geometry = placed && inPixelsOf(small, placed).geometry
    const edited = isFrame ? null : picture.whole
    const filled = edited && findStraightening(edited, copy, alphaOf(edited, copy))
    const mask = filled && filledMask(filled.lines, small.width, small.height, small.width / copy.width)
    const { backdrop, intrusions } = readBackdrop(lab, small.width, small.height, geometry, mask)
    const straightening = filled?.straightening ?? null
    const { transparentShare } = picture
    const seen = geometry && (await lookForPerson(small, geometry))
    const plain = seen && plainShare(lab, backdrop, geometry, seen.head)
    const cutout =
      edited && placed && groups.includes('cutout')
        ? measureCutout(edited, copy, { ...small, data: backdrop.mask }, placed)
        : UNKNOWN_CUTOUT
    const edges = { intrusions, straightening, ...cutout, transparentShare }
    result.background = measureBackground(lab, backdrop, edges, plain)
    if (wants.head) {
      const isPlain = result.background.confidence >= SURE
      const reading = seen && (await readCrown(backdrop, isPlain, seen, geometry, face.turnDeg ?? 0))
      const { width, height } = small
      result.head = measureHead(face, reading && { width, height, geometry, reading })
    }
  }
  if (wants.finish) {
    const located = placed && shiftedFace(inPixelsOf(picture, placed).located, near)
    result.finish = measureFinish(near, located, face, groups)
  }
  if (wants.signature) result.signature = pictureSignature(copy, placed?.geometry ?? null)
  return result
}

async function lookForPerson(small: RgbPicture, geometry: FaceGeometry): Promise<Seen> {
  const person = await loadPersonModel()
  return {
    head: await person.find(small, headWindow(geometry)),
    frame: () => person.find(small, frameWindow(small)),
  }
}

/** Groups that are read at full size. */
const FINISHING: readonly MeasurementGroup[] = ['finish', 'focus', 'halo', 'texture', 'enlargement', 'eyes']

function wantedBy(groups: readonly MeasurementGroup[]) {
  const head = groups.includes('head')
  const finish = FINISHING.some((group) => groups.includes(group))
  const signature = groups.includes('signature')
  const backdrop = head || groups.includes('background') || groups.includes('cutout')
  const face = head || finish || signature || groups.includes('face')
  return { backdrop, face, head, finish, signature }
}

interface FaceReading {
  readonly face: NonNullable<PictureMeasurements['face']>
  /** In pixels of the copy that was searched; null without a face. */
  readonly placed: PlacedFace | null
  readonly copy: RgbPicture
  /** What is around the face, at full size. */
  readonly near: PicturePart
}

async function readFace(picture: PictureParts): Promise<FaceReading> {
  const copy = await picture.copy(FACE_LONG_EDGE_PX)
  const faces = await findFaces(await loadFaceModel(), copy, picture)
  const near = faces?.near ?? (await picture.near(null))
  const { face, landmarks } = measureFace(faces, copy.width, copy.height, picture.width / copy.width)
  if (!faces || !landmarks) return { face, placed: null, copy, near }
  const geometry = { ...landmarks, ...readChin(copy, faces.largest, landmarks, face) }
  return { face, placed: { width: copy.width, located: faces.largest, geometry }, copy, near }
}
