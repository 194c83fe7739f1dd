import { type Backdrop, maskAt } from '../backdrop/backdrop.ts'
import { type FaceGeometry, type Pixel, placeOnFace } from '../face/face-axes.ts'
import { EYES_TO_CHIN, EYES_TO_CROWN, type Proportion } from '../face/proportions.ts'
import { doubted, SURE } from '../schema/confidence.ts'
import type { Background, Doubt, Face, Head } from '../schema/measurements.ts'
import { findCrown } from './crown.ts'
import { crownErrorOf } from './head-errors.ts'

/** Thresholds of the backdrop at which the crown must stay where it is, times the one chosen. @choice plainly tighter and plainly wider, no source. */
const THRESHOLDS = [0.75, 1.5]

/** How far it may move then, share of the frame height. @choice the error that a headroom may have at most, no source. */
const STEADY = 0.01

/** Least backdrop between the crown and what is above it, share of the frame height. @choice more than an edge's blur, no source. */
const BLURRED = 0.01

/** How far big hair and hats rise above the eyes, times hair pressed flat, which ends the range of the survey. @choice no source. */
const HAIR = 2

/** What a photograph adds to the published ranges, share of them. @choice perspective, and landmarks that are a pixel or two off; no source. */
const SLACK = 0.15

/** Crown, eye line, head height and centering from the backdrop's mask and the face; percentages as in the type. */
export function measureHead(
  backdrop: Backdrop,
  background: Background,
  face: Face,
  geometry: FaceGeometry | null,
): Head {
  const { width, height } = backdrop
  if (!geometry) return NO_HEAD
  const { midEyes, chin } = geometry
  const doubts: Doubt[] = [...face.doubts]
  if (background.confidence < SURE) doubts.push(...background.doubts)
  const crown = crownOf(backdrop, geometry, doubts)
  if (!plausibleChin(geometry)) doubts.push('chin-implausible')
  const sure = Math.min(face.confidence, background.confidence)
  const crownError = crown && crownErrorOf(geometry)
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
    confidence: doubted(sure, doubts),
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

function crownOf(backdrop: Backdrop, geometry: FaceGeometry, doubts: Doubt[]): Pixel | null {
  const { width, height } = backdrop
  const crownFor = (mask: Uint8Array) => {
    const { foreign } = backdrop
    const data = foreign ? mask.map((value, i) => value | (foreign[i] as number)) : mask
    return findCrown({ data, width, height }, backdrop.distance, geometry)
  }
  const crown = crownFor(backdrop.mask)
  if (!crown) {
    doubts.push('crown-merges-with-backdrop')
    return null
  }
  if (isUnderForeign(crown, backdrop)) doubts.push('crown-merges-with-backdrop')
  const isCut = crown.y <= 1
  if (isCut) doubts.push('crown-out-of-frame')
  const steady = THRESHOLDS.every((factor) => {
    const other = crownFor(maskAt(backdrop, factor * backdrop.threshold))
    return other !== null && Math.abs(other.y - crown.y) <= STEADY * height
  })
  if (!steady) doubts.push('crown-merges-with-backdrop')
  const rise = -placeOnFace(geometry, crown).along / geometry.eyeDistance
  // A head that the frame cuts is low for that reason; one that is too high reaches the edge by something above it.
  const isPlausible = isCut ? notAbove(rise, EYES_TO_CROWN, HAIR) : within(rise, EYES_TO_CROWN, HAIR)
  if (!isPlausible) doubts.push('crown-implausible')
  return crown
}

/** What stands directly above the crown may hide the rest of it. */
function isUnderForeign({ x, y }: Pixel, { foreign, width, height }: Backdrop): boolean {
  const above = Math.round(y - BLURRED * height) * width + Math.floor(x)
  return foreign !== null && above >= 0 && foreign[above] === 1
}

function plausibleChin(geometry: FaceGeometry): boolean {
  return within(placeOnFace(geometry, geometry.chin).along / geometry.eyeDistance, EYES_TO_CHIN, 1)
}

/** True when a length in eye distances fits a ratio of eye distance to length, the longest one times `more`. */
function within(length: number, ratio: Proportion, more: number): boolean {
  return length >= (1 - SLACK) / ratio.high && notAbove(length, ratio, more)
}

function notAbove(length: number, { low }: Proportion, more: number): boolean {
  return length <= (more * (1 + SLACK)) / low
}

/** Crown to chin along the face axis, projected on the height of the frame, in pixels. */
function headHeight(crown: Pixel, geometry: FaceGeometry): number {
  const from = placeOnFace(geometry, crown).along
  const to = placeOnFace(geometry, geometry.chin).along
  return (to - from) * geometry.axis.y
}
