import type { RgbPicture } from '../../../imaging/rgb-picture.ts'
import type { LocatedFace } from '../../face/find-faces.ts'
import { type EyeSquare, eyeSquare } from '../../face/irises/eye-square.ts'
import { type IrisFit, irisFits, isExtreme } from '../../face/irises/iris-fit.ts'
import { openingOf } from '../../face/irises/mesh-eyes.ts'
import { doubted } from '../../schema/confidence.ts'
import { EYES_MATCH_LEAST_EYE_DISTANCE_PX, EYES_MATCH_MOST_TURN_DEG } from '../../schema/gates.ts'
import type { Doubt, EyePair, Face } from '../../schema/measurements.ts'
import { eyeDistanceOf } from '../glare/eye-region.ts'
import { type Catchlight, catchlightsOf } from './catchlights.ts'

/**
 * How much worse than the best two irises may fit together, codes.
 * @tuned on 51 portraits in one light and 1,400 composites of them: from 1.5 on the irises of all 51 may be alike; each code more leaves out a
 *   tenth of the eyes that were scaled by 15 %
 */
const SLACK = 2

/** Contrast of an iris's edge below which it is not known, codes. @tuned on 51 portraits, whose faintest has 29, and on 50 photographs with hair, lashes and lids over eyes, which have up to 23 */
const LEAST_CONTRAST = 25

/**
 * How far open an eye is at least, height of its opening over the width of the iris.
 * @tuned on the same: 0.62 and more on the 51; closed and nearly closed eyes up to 0.56
 */
const LEAST_OPEN = 0.6

/**
 * How much farther to the left of the frame a light stands in the eye at the right than in the other, radii of an iris: the axes of the
 * eyes point past the camera to both sides (angle kappa), and lights are seen nearer to the nose.
 * @tuned on 51 portraits in one light: 0.2 in the mean, 0.06 from sitter to sitter; by halves of the sitters 0.16 to 0.22
 */
const TOWARD_NOSE = 0.2

/**
 * What both eyes of one frame have alike: how wide their irises are, and where they reflect the lights.
 * @param located the face in pixels of `picture`
 */
export function matchEyes(picture: RgbPicture, located: LocatedFace, face: Face): EyePair {
  const eyeDistance = eyeDistanceOf(located)
  const [left, right] = located.irises
  const lean = Math.atan2(right[1] - left[1], right[0] - left[0])
  const squares = [left, right].map((place) => eyeSquare(picture, place, eyeDistance)) as [
    EyeSquare,
    EyeSquare,
  ]
  const irises = mostAlike(irisFits(squares[0], lean), irisFits(squares[1], lean))
  const read = (eye: 0 | 1): SeenEye => {
    const [square, iris] = [squares[eye], irises[eye]]
    return {
      irisPx: 2 * iris.radius * square.step,
      contrast: iris.leastContrast,
      lights: catchlightsOf(square, iris, lean, lowerLidOf(located, eye, square, iris, lean)),
    }
  }
  const eyes = [read(0), read(1)] as const
  const doubts = new Set<Doubt>(face.doubts)
  if (eyeDistance < EYES_MATCH_LEAST_EYE_DISTANCE_PX) doubts.add('eyes-too-small')
  if (Math.abs(face.turnDeg ?? 0) > EYES_MATCH_MOST_TURN_DEG) doubts.add('face-turned')
  if (
    eyes.some(
      ({ contrast, irisPx }, k) =>
        contrast < LEAST_CONTRAST ||
        isExtreme(irises[k as 0 | 1]) ||
        openingOf(located.mesh, k as 0 | 1).height < LEAST_OPEN * irisPx,
    )
  )
    doubts.add('irises-unclear')
  const widths = eyes.map(({ irisPx }) => irisPx)
  return {
    left: told(eyes[0]),
    right: told(eyes[1]),
    irisDifferencePct: 100 * (Math.max(...widths) / Math.min(...widths) - 1),
    catchlightsApart: lightsApart(...eyes),
    confidence: doubted(face.confidence, doubts),
    doubts: [...doubts],
  }
}

/** What stands in place of it without a face. */
export function unknownEyePair(doubts: Doubt[]): EyePair {
  return {
    left: null,
    right: null,
    irisDifferencePct: null,
    catchlightsApart: null,
    confidence: 0,
    doubts,
  }
}

/** How far down from the middle of an iris the mesh has the lower lid, radii. */
function lowerLidOf(
  { mesh }: LocatedFace,
  eye: 0 | 1,
  { left, top, step }: EyeSquare,
  { x, y, radius }: IrisFit,
  lean: number,
): number {
  const { height, middle } = openingOf(mesh, eye)
  const [right, down] = [middle[0] - left - x * step, middle[1] - top - y * step]
  return (down * Math.cos(lean) - right * Math.sin(lean) + height / 2) / (radius * step)
}

interface SeenEye {
  readonly irisPx: number
  readonly contrast: number
  readonly lights: readonly Catchlight[]
}

/**
 * The irises of both eyes: of all that fit about as well as the best, those that are most alike, since a pupil, lashes or a
 * soft edge may fit as well as the iris.
 */
export function mostAlike(
  atLeft: readonly IrisFit[],
  atRight: readonly IrisFit[],
): readonly [IrisFit, IrisFit] {
  const pairs = atLeft.flatMap((one) => atRight.map((other) => [one, other] as const))
  const sum = ([one, other]: (typeof pairs)[number]) => one.contrast + other.contrast
  const apart = ([one, other]: (typeof pairs)[number]) => Math.abs(one.radius - other.radius)
  const best = Math.max(...pairs.map(sum))
  const near = pairs.filter((pair) => sum(pair) >= best - SLACK)
  return near.reduce((found, pair) =>
    apart(pair) < apart(found) || (apart(pair) === apart(found) && sum(pair) > sum(found)) ? pair : found,
  )
}

function told({ irisPx, lights: [greatest] }: SeenEye): EyePair['left'] {
  return { irisPx, catchlight: greatest ? { across: greatest.across, down: greatest.down } : null }
}

/** Of the two lights that fit best, since a nose or a lid may hide others from one eye. */
function lightsApart({ lights: atLeft }: SeenEye, { lights: atRight }: SeenEye): number | null {
  const apart = atLeft.flatMap((one) =>
    atRight.map((other) => Math.hypot(other.across - one.across + TOWARD_NOSE, other.down - one.down)),
  )
  return apart.length > 0 ? Math.min(...apart) : null
}
