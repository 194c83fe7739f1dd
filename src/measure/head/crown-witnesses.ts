import type { Backdrop } from '../backdrop/backdrop.ts'
import { type FaceGeometry, type Pixel, placeOnFace } from '../face/face-axes.ts'
import { EYES_TO_CROWN, type Proportion } from '../face/proportions.ts'
import type { PersonMask } from '../person/person-mask.ts'
import type { Doubt } from '../schema/measurements.ts'
import { HEAD_BREADTHS, type HeadColumns, headColumns } from './head-columns.ts'
import { type PersonCrown, personCrown } from './person-crown.ts'
import { silhouetteCrown } from './silhouette-crown.ts'

/**
 * Error of the crown where two witnesses agree to the pixel, distances between the eyes: of silhouette and network before a plain backdrop,
 * of two readings of the network elsewhere.
 * @tuned on 50 photographs before plain paper, 47 of whose crowns are within the error told, and on 49 before other walls, 48 of which are.
 */
const AGREED = { silhouette: 0.045, network: 0.06 } as const

/**
 * How far towards the silhouette the crown is, of the way from the network's.
 * @tuned on 62 photographs before plain walls and on drawn sitters: the silhouette is finer on short hair and curls, the network sees past loose
 * strands; from a half to this, none of those that are sure is off by more than 1.3 %.
 */
const FINER = 0.75

/**
 * Largest error of a crown that may be judged, distances between the eyes.
 * @tuned on the same photographs: of the four beyond it two are off by 2.6 and 3.9 % of the frame; of those within it none by more than 1.3 %.
 */
const MOST_ERROR = 0.17

/** How near the top edge a crown is that the frame may cut, px of the copy. @choice the network tells no more. */
const CUT = 1.5

/** How far big hair and hats rise above the eyes, times hair pressed flat, which ends the range of the survey. @choice a third more than the highest of 117 marked and drawn ones. */
const HAIR = 1.5

/** What a photograph adds to the published ranges, share of them. @choice perspective, and landmarks that are a pixel or two off; no source. */
const SLACK = 0.15

export interface CrownReading {
  readonly crown: Pixel | null
  /** How far it may be off up or down, px: 95 of 100 are within it. */
  readonly error: number
  readonly doubts: readonly Doubt[]
}

/** How the network sees the person. */
export interface Seen {
  readonly head: PersonMask
  /** In the whole frame, where it has to be asked twice. */
  readonly frame: () => Promise<PersonMask>
}

/**
 * Reads the crown by two witnesses: the silhouette before a plain backdrop and a network that tells people from backgrounds; where there is
 * no such silhouette, the network looks at the head alone and at the whole frame. The crown is between them, and the farther they are apart
 * and the less the network sees an edge there, the larger is the error told.
 */
export async function readCrown(
  backdrop: Backdrop,
  isPlain: boolean,
  seen: Seen,
  face: FaceGeometry,
  turnDeg: number,
): Promise<CrownReading> {
  const columns = headColumns(face, turnDeg)
  const silhouette = isPlain ? silhouetteCrown(backdrop, face, columns) : null
  const byHead = personCrown(seen.head, face, columns)
  // A bun or a hat that the frame cuts may be none of the head to the network.
  if (silhouette && silhouette.y <= CUT) return cutAt(silhouette, byHead, face)
  const other = silhouette ?? personCrown(await seen.frame(), face, columns)
  const crown = byHead && other ? between(byHead, other, silhouette ? FINER : 0.5) : (byHead ?? other)
  if (!crown) return { crown, error: 0, doubts: [unclear(isPlain)] }
  const error = errorOf(byHead, other, silhouette !== null, face)
  const isCut = crown.y <= CUT
  const doubts: Doubt[] = []
  if (isCut) doubts.push('crown-out-of-frame')
  if (error > MOST_ERROR * face.eyeDistance) doubts.push(unclear(isPlain))
  if (!isPlausible(crown, isCut, face, columns)) doubts.push('crown-implausible')
  return { crown, error, doubts }
}

function cutAt(silhouette: Pixel, byHead: PersonCrown | null, face: FaceGeometry): CrownReading {
  return {
    crown: silhouette,
    error: errorOf(byHead, silhouette, true, face),
    doubts: ['crown-out-of-frame'],
  }
}

/** @param share of the way from a to b */
function between(a: Pixel, b: Pixel, share: number): Pixel {
  return { x: a.x + share * (b.x - a.x), y: a.y + share * (b.y - a.y) }
}

function errorOf(
  byHead: PersonCrown | null,
  other: Pixel | null,
  isSilhouette: boolean,
  { eyeDistance }: FaceGeometry,
): number {
  // One witness alone is none.
  if (!byHead || !other) return eyeDistance
  const agreed = eyeDistance * (isSilhouette ? AGREED.silhouette : AGREED.network)
  return Math.hypot(agreed, byHead.y - other.y, byHead.blur)
}

function unclear(isPlain: boolean): Doubt {
  return isPlain ? 'crown-merges-with-backdrop' : 'crown-unclear'
}

/** Whether a head of usual proportions, with hair or a hat, may have its crown there. */
function isPlausible(crown: Pixel, isCut: boolean, face: FaceGeometry, columns: HeadColumns): boolean {
  const { across, along } = placeOnFace(face, crown, face.eyeDistance)
  const rise = Math.hypot(across, along)
  // A head that the frame cuts is low for that reason; one that is too high reaches the edge by something above it.
  const { low, high }: Proportion = EYES_TO_CROWN
  const reaches = isCut || rise >= (1 - SLACK) / high
  const half = (columns.right - columns.left) / 2 / HEAD_BREADTHS
  const beside = Math.abs(crown.x - (columns.left + columns.right) / 2)
  return along < 0 && reaches && rise <= (HAIR * (1 + SLACK)) / low && (isCut || beside <= half)
}
