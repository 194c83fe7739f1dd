import { type FaceGeometry, type Pixel, placeOnFace } from '../face/face-axes.ts'
import { EYES_TO_CHIN } from '../face/proportions.ts'
import { doubted } from '../schema/confidence.ts'
import type { Doubt, Face, Head } from '../schema/measurements.ts'
import type { CrownReading } from './crown-witnesses.ts'

/** What a photograph adds to the published ranges, share of them. @choice perspective, and landmarks that are a pixel or two off; no source. */
const SLACK = 0.15

/** A head and the size of the copy that it was read in, px. */
export interface ReadHead {
  readonly width: number
  readonly height: number
  readonly geometry: FaceGeometry
  readonly reading: CrownReading
}

/** Crown, eye line, head height and centering; percentages as in the type. */
export function measureHead(face: Face, head: ReadHead | null): Head {
  if (!head) return NO_HEAD
  const { width, height, geometry, reading } = head
  const { crown } = reading
  const { midEyes, chin } = geometry
  const doubts: Doubt[] = [...face.doubts, ...reading.doubts]
  if (!plausibleChin(geometry)) doubts.push('chin-implausible')
  const crownError = crown && reading.error
  const chinError = geometry.chinError * geometry.axis.y
  return {
    crown: crown && { x: crown.x / width, y: crown.y / height },
    chin: { x: chin.x / width, y: chin.y / height },
    chinErrorPct: (100 * chinError) / height,
    headroomPct: crown && (100 * crown.y) / height,
    crownErrorPct: crownError && (100 * crownError) / height,
    eyeLinePct: (100 * midEyes.y) / height,
    eyeLineErrorPct: (100 * geometry.eyesError.down) / height,
    headHeightPct: crown && (100 * headHeight(crown, geometry)) / height,
    headHeightErrorPct: crownError && (100 * Math.hypot(crownError * geometry.axis.y, chinError)) / height,
    offCenterPct: (midEyes.x / width - 0.5) * 100,
    offCenterErrorPct: (100 * geometry.eyesError.across) / width,
    confidence: doubted(face.confidence, doubts),
    doubts,
  }
}

const NO_HEAD: Head = {
  crown: null,
  chin: null,
  chinErrorPct: null,
  headroomPct: null,
  crownErrorPct: null,
  eyeLinePct: null,
  eyeLineErrorPct: null,
  headHeightPct: null,
  headHeightErrorPct: null,
  offCenterPct: null,
  offCenterErrorPct: null,
  confidence: 0,
  doubts: ['no-face'],
}

function plausibleChin(geometry: FaceGeometry): boolean {
  const length = placeOnFace(geometry, geometry.chin).along / geometry.eyeDistance
  return length >= (1 - SLACK) / EYES_TO_CHIN.high && length <= (1 + SLACK) / EYES_TO_CHIN.low
}

/** Crown to chin along the face axis, projected on the height of the frame, in pixels. */
function headHeight(crown: Pixel, geometry: FaceGeometry): number {
  const from = placeOnFace(geometry, crown).along
  const to = placeOnFace(geometry, geometry.chin).along
  return (to - from) * geometry.axis.y
}
