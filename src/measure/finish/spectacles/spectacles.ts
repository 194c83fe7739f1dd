import type { RgbPicture } from '../../../imaging/rgb-picture.ts'
import { quantile } from '../../../numbers/quantile.ts'
import { type FacePlace, frontalDistance, placeOnFace } from '../../face/face-axes.ts'
import type { LocatedFace } from '../../face/find-faces.ts'
import { doubted, SURE } from '../../schema/confidence.ts'
import { LENS_GLARE_LEAST_EYE_DISTANCE_PX, LENS_GLARE_MOST_TURN_DEG } from '../../schema/gates.ts'
import type { Doubt, Face, Spectacles } from '../../schema/measurements.ts'
import { CELLS_PER_MM, type FaceScale, readStrip, type Strip, type StripCells } from './face-strip.ts'
import { lineAcross, MARGIN } from './line-across.ts'

/** Distance between the pupils by which a face is measured, mm. @source Dodgson, Proc. SPIE 5291, 2004: 63 mm in the mean. */
export const PUPILS_MM = 63

/**
 * Where a bridge crosses the nose, mm: width, and from where to where below the line of the eyes.
 * @tuned on 133 pictures of faces without spectacles and 124 with: below brows that meet.
 */
const BRIDGE = { width: 14, from: -10.5, to: 9.5 } as const

/** The same of a rim across the cheek. @tuned on the same pictures: below the lids and the bags under the eyes. */
const RIM = { width: 26, from: 13, to: 36 } as const

/** Point of the mesh in the middle of the nose between the eyes. @source the 468-point face mesh of MediaPipe, canonical face model. */
const NOSE = 168

/** The corners of each eye. @source the same model. */
const CORNERS = [
  [33, 133],
  [263, 362],
] as const

/** Contrast below which a line is grain and pores. @tuned on the same pictures: half of the faces without spectacles are below it. */
const NO_LINE = 0.012

/**
 * Contrast of frames from which spectacles are worn rather than not.
 * @tuned on the same pictures: of 51 studio portraits without spectacles none is over 0.0193; of real spectacles within the gates, the
 *   faintest has 0.0335, but for dark lenses with 0.023; drawn thin wires before dark skin have 0.022.
 */
const FRAMES = 0.0265

/**
 * How many times over that the contrast must be to be sure that spectacles are worn, and under that to be sure that none are.
 * @tuned on the same pictures: over 0.032; under 0.017, since gray wires drawn on skin of their own lightness have 0.019.
 */
const SURE_FACTOR = { worn: 1.2, bare: 1.6 } as const

/**
 * Whether spectacles are worn: a line over the nose (the bridge) together with one under each eye (the rims), which bare
 * skin doesn't have.
 * @param located the face in pixels of `picture`
 * @param dark whether the eyes lie behind something far darker than skin, which may be lenses without a line
 */
export function measureSpectacles(
  picture: RgbPicture,
  located: LocatedFace,
  face: Face,
  dark: boolean,
): Spectacles {
  const scale = scaleOf(located)
  const placeOf = (point: number) => {
    const [x, y] = located.mesh[point] ?? [0, 0]
    return placeOnFace(scale, { x, y }, scale.mmPx)
  }
  const read = (place: FacePlace, size: typeof BRIDGE | typeof RIM) =>
    readStrip(picture, scale, stripBelow(place, located, size))
  const bridge = read({ across: placeOf(NOSE).across, along: 0 }, BRIDGE)
  const rims = CORNERS.map(([outer, inner]) => read(midway(placeOf(outer), placeOf(inner)), RIM))
  const skin = quantile(joined(rims.map(({ cells }) => cells)), 0.5)
  const contrast = (strip: StripCells) => Math.max(NO_LINE, lineAcross(strip) / Math.max(skin, NO_LINE))
  const rim = Math.sqrt(rims.reduce((product, strip) => product * contrast(strip), 1))
  // A faint bridge is believed where rims are clear, and the other way round.
  const frameContrast = Math.sqrt(contrast(bridge) * rim)
  const doubts = new Set<Doubt>(face.doubts)
  if (scale.mmPx * PUPILS_MM < LENS_GLARE_LEAST_EYE_DISTANCE_PX) doubts.add('eyes-too-small')
  if (Math.abs(face.turnDeg ?? 0) > LENS_GLARE_MOST_TURN_DEG) doubts.add('face-turned')
  if (dark) doubts.add('lenses-dark')
  const factor = frameContrast >= FRAMES ? SURE_FACTOR.worn : SURE_FACTOR.bare
  const sure = (SURE * Math.abs(Math.log(frameContrast / FRAMES))) / Math.log(factor)
  if (sure < SURE) doubts.add('frames-unclear')
  return {
    worn: frameContrast >= FRAMES,
    frameContrast,
    confidence: doubted(Math.min(1, sure, face.confidence), doubts),
    doubts: [...doubts],
  }
}

function joined(lists: readonly Float32Array[]): Float32Array {
  const all = new Float32Array(lists.reduce((sum, { length }) => sum + length, 0))
  let at = 0
  for (const list of lists) {
    all.set(list, at)
    at += list.length
  }
  return all
}

/** What stands in place of it without a face. */
export function unknownSpectacles(doubts: Doubt[]): Spectacles {
  return { worn: null, frameContrast: null, confidence: 0, doubts }
}

/** Whether nothing is before the eyes that could reflect a light. */
export function areEyesBare({ worn, confidence }: Spectacles): boolean {
  return worn === false && confidence >= SURE
}

function scaleOf({ irises: [left, right], yaw }: LocatedFace): FaceScale {
  const [dx, dy] = [right[0] - left[0], right[1] - left[1]]
  const length = Math.hypot(dx, dy) || 1
  return {
    midEyes: { x: (left[0] + right[0]) / 2, y: (left[1] + right[1]) / 2 },
    axis: { x: -dy / length, y: dx / length },
    mmPx: frontalDistance(length, yaw) / PUPILS_MM,
  }
}

function midway(one: FacePlace, other: FacePlace): FacePlace {
  return { across: (one.across + other.across) / 2, along: (one.along + other.along) / 2 }
}

/** A strip below a place on the face, narrower on a turned one, with the margin that its filter needs. */
function stripBelow(
  { across, along }: FacePlace,
  { yaw }: LocatedFace,
  { width, from, to }: typeof RIM | typeof BRIDGE,
): Strip {
  return {
    middle: { across, along: along + (from + to) / 2 },
    width: width / frontalDistance(1, yaw) + (2 * MARGIN.columns) / CELLS_PER_MM,
    height: to - from + (2 * MARGIN.rows) / CELLS_PER_MM,
  }
}
