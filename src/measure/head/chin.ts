import type { RgbPicture } from '../../imaging/rgb-picture.ts'
import type { FaceGeometry, FaceLandmarks, FacePlace } from '../face/face-axes.ts'
import type { ModelFace } from '../face/networks/face-model.ts'
import { jawRoughness } from './beard.ts'
import { type ChinEdge, chinEdges } from './chin-edges.ts'
import { type ChinPatch, chinPatch } from './chin-patch.ts'

/** Points of the 468-point face mesh: the arc of the chin, from jaw to jaw. @source canonical face model of MediaPipe */
const ARC = [149, 176, 148, 152, 377, 400, 378] as const
/** The corners of the jaw. @source canonical face model of MediaPipe */
const JAW_CORNERS = [136, 365] as const
/** The middle below the lower lip. @source canonical face model of MediaPipe */
const BELOW_LIP = 17
/**
 * Share of the way from the corner of the jaw to the lip at which skin or beard is looked at.
 * @choice inside the outline, beside the mouth
 */
const INWARDS = 0.3

/**
 * How far the chin's edge may be from the mesh's chin without a beard, cells of the patch: hundredths of the way from the eyes.
 * @tuned on drawn and photographed portraits, whose edges are 2 above to 5 below it: the mesh draws faces towards the average
 */
const BARE_REACH = 8
/**
 * How far below the mesh's chin a beard may end, cells.
 * @tuned on drawn and photographed beards, which end up to 19 below it
 */
const BEARD_REACH = 20
/**
 * Least step of tone that is an edge, L*a*b* units over 10 cells.
 * @tuned on drawn and photographed portraits: weaker ones are wrinkles and noise
 */
const LEAST_STEP = 5
/**
 * Least cosine between a step of color and a step to darker skin of the same color.
 * @tuned on drawn and photographed portraits: the step from lit chin to shaded neck is one of light; cloth right below the
 *   chin has a color of its own
 */
const LEAST_SHADE = 0.85
/**
 * Roughness of the jaw from which it has a beard.
 * @tuned on drawn and photographed portraits: bare and stubbly jaws come to 0.035 at most, but for one with gold paint;
 *   trimmed and full beards to 0.043 and more
 */
const BEARDED = 0.039

/** How far below the mesh's chin the chin is, and how far it may be off to either side; in cells. */
interface ChinReading {
  readonly down: number
  readonly error: number
}

/**
 * Reads the chin in the picture, since the mesh draws long and short faces towards the average one. Without a beard it
 * is the edge where the chin's skin meets its own shade on the neck. Under a beard it is somewhere between the mesh's
 * chin, which is in the hair above it, and the beard's lower edge: half-way is read, and half that way is the error.
 * Where no such edge shows, the mesh's chin stays.
 * @param picture the picture that the landmarks refer to
 */
export function readChin(
  picture: RgbPicture,
  { mesh }: ModelFace,
  landmarks: FaceLandmarks,
): Pick<FaceGeometry, 'chin' | 'chinError'> {
  const patch = chinPatch(picture, landmarks)
  const pointAt = (index: number): FacePlace => {
    const [x, y] = mesh[index] ?? [0, 0]
    return patch.placeOf({ x, y })
  }
  const arc = ARC.map(pointAt).sort((a, b) => a.across - b.across)
  const edges = chinEdges(patch, arc).filter(({ strength }) => strength >= LEAST_STEP)
  const { down, error } = isBearded(patch, pointAt) ? underBeard(edges) : bareChin(edges)
  const { across, along } = patch.placeOf(landmarks.meshChin)
  return { chin: patch.pixelOf({ across, along: along + down }), chinError: error * patch.cell }
}

function isBearded(patch: ChinPatch, pointAt: (index: number) => FacePlace): boolean {
  const lip = pointAt(BELOW_LIP)
  const jaws = JAW_CORNERS.map((corner) => towards(pointAt(corner), lip, INWARDS))
  return jawRoughness(patch, jaws) >= BEARDED
}

/** The strongest edge near the mesh's chin counts, and only if it is one of shade: next to a stronger edge of cloth none does. */
function bareChin(edges: readonly ChinEdge[]): ChinReading {
  const edge = strongest(edges.filter(({ offset }) => Math.abs(offset) <= BARE_REACH))
  return { down: edge?.darkens && edge.shades >= LEAST_SHADE ? edge.offset : 0, error: 0 }
}

/** A beard is darker than the neck below it, or in its own shade; without a visible end it may be as long as any. */
function underBeard(edges: readonly ChinEdge[]): ChinReading {
  const ends = edges.filter(({ offset, darkens }) => !darkens && offset > 0 && offset <= BEARD_REACH)
  const half = (strongest(ends)?.offset ?? BEARD_REACH) / 2
  return { down: half, error: half }
}

function strongest(edges: readonly ChinEdge[]): ChinEdge | undefined {
  return edges.toSorted((a, b) => b.strength - a.strength)[0]
}

function towards(from: FacePlace, to: FacePlace, share: number): FacePlace {
  return {
    across: from.across + (to.across - from.across) * share,
    along: from.along + (to.along - from.along) * share,
  }
}
