import type { RgbPicture } from '../../imaging/rgb-picture.ts'
import type { FaceGeometry, FaceLandmarks } from '../face/face.ts'
import type { ModelFace } from '../face/networks/face-model.ts'
import { jawRoughness } from './beard.ts'
import { type ChinEdge, chinEdges } from './chin-edges.ts'
import { chinPatch, type FacePlace } from './chin-patch.ts'

// Indexes of the 468-point face mesh: the arc of the chin; the corners of the jaw; the middle below the lower lip.
const ARC = [149, 176, 148, 152, 377, 400, 378] as const
const JAW_CORNERS = [136, 365] as const
const BELOW_LIP = 17
// The jaw is looked at this share of the way from its corner to the lip.
const INWARDS = 0.3

// Lengths are in hundredths of the way from the eyes to the mesh's chin. The mesh draws faces towards the average:
// on drawn and real portraits without a beard the chin's own edge lay 2 above to 5 below it.
const BARE_REACH = 8
// The beards of the tests end up to 19 below it.
const BEARD_REACH = 20
// Weaker steps are wrinkles and noise: L*a*b* units over 10 cells.
const LEAST_STEP = 5
// The step from lit chin to shaded neck is one of light; cloth right below the chin has a color of its own.
const LEAST_SHADE = 0.85
// Roughness of the jaw from which it bears a beard: bare and stubbly jaws of the tests come to 0.035 at most, drawn and
// on all photographs but one (gold paint), trimmed and full beards to 0.043 and more.
const BEARDED = 0.039

/**
 * Reads the chin in the picture, since the mesh draws long and short faces towards the average one. Without a beard it
 * is the edge where the chin's skin meets its own shade on the neck. Under a beard it is somewhere between the mesh's
 * chin, which lies in the hair above it, and the beard's lower edge: half-way is read, and half that way is the error.
 * Where no such edge shows, the mesh's chin stays.
 * @param picture the picture that the landmarks refer to
 */
export function seeChin(
  picture: RgbPicture,
  { mesh }: ModelFace,
  landmarks: FaceLandmarks,
): Pick<FaceGeometry, 'chin' | 'chinError'> {
  const patch = chinPatch(picture, landmarks)
  const placeOf = (index: number): FacePlace => {
    const [x, y] = mesh[index] ?? [0, 0]
    return patch.placeOf({ x, y })
  }
  const lip = placeOf(BELOW_LIP)
  const jaws = JAW_CORNERS.map((corner) => towards(placeOf(corner), lip, INWARDS))
  const edges = chinEdges(
    patch,
    ARC.map(placeOf).sort((a, b) => a.across - b.across),
  ).filter(({ strength }) => strength >= LEAST_STEP)
  const bearded = jawRoughness(patch, jaws) >= BEARDED
  const { down, error } = bearded ? underBeard(edges) : { down: bareChin(edges), error: 0 }
  const { across, along } = patch.placeOf(landmarks.meshChin)
  return {
    chin: patch.pixelOf({ across, along: along + down }),
    chinError: error * patch.cell,
  }
}

function bareChin(edges: readonly ChinEdge[]): number {
  const edge = strongest(edges.filter(({ below }) => Math.abs(below) <= BARE_REACH))
  return edge?.darkens && edge.shades >= LEAST_SHADE ? edge.below : 0
}

/** A beard is darker than the neck below it, or lies in its own shade. */
function underBeard(edges: readonly ChinEdge[]): { down: number; error: number } {
  const ends = edges.filter(({ below, darkens }) => !darkens && below > 0 && below <= BEARD_REACH)
  const half = (strongest(ends)?.below ?? BEARD_REACH) / 2
  return { down: half, error: half }
}

function strongest(edges: readonly ChinEdge[]): ChinEdge | undefined {
  return [...edges].sort((a, b) => b.strength - a.strength)[0]
}

function towards(from: FacePlace, to: FacePlace, share: number): FacePlace {
  return {
    across: from.across + (to.across - from.across) * share,
    along: from.along + (to.along - from.along) * share,
  }
}
