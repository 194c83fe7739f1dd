import type { RgbPicture } from '../../../imaging/rgb-picture.ts'
import type { MeshPoint } from '../networks/face-model.ts'
import { eyeSquare } from './eye-square.ts'
import { type IrisFit, irisFit, isExtreme } from './iris-fit.ts'
import { meshEyes, type Opening, openingOf, type Place } from './mesh-eyes.ts'

export interface FoundIrises {
  /** Middle of each iris, the left in the frame first, px. */
  readonly irises: readonly [Place, Place]
  /**
   * False when one of them could not be read in the picture: it stands then where the mesh has the eye, or as far beside it as the other, where
   * that one looks aside.
   */
  readonly irisesSeen: boolean
}

/**
 * Least contrast of an iris's edge, codes, at the side where it is less.
 * @tuned on 758 eyes of photographs and drawn sitters: of circles with less, seven in ten lie beside the iris; of those with more one in thirty does,
 *   mostly under hair
 */
const LEAST_CONTRAST = 16

/** How far open an eye is at least, height of its opening over the width of the iris. @choice half: a narrower eye shows two short arcs of its iris */
const LEAST_OPEN = 0.5

/**
 * How far the ways from the mesh's eyes to their irises differ at most along the line of the eyes, share of the eyes' distance: both eyes look the
 * same way.
 * @tuned on 102 eyes of 51 photographs with published marks, where they differ by 3 % (one standard deviation); irises found in corners of eyes by 10
 */
const MOST_APART = 0.08

/**
 * The same square to it: where one is higher by more, a light on a lens or a lid was taken for it.
 * @tuned on 219 faces: marked photographs, copies of them and drawn sitters differ by 3.1 % at most, 47 photographs of packages by 4.4; a light on a
 *   lens was 6.6 % too high
 */
const MOST_ASKEW = 0.05

/**
 * How much higher than the middle of the iris's visible edge its own is, share of the distance between both eyes: the upper lid hides
 * more of it.
 * @tuned on 102 eyes of 51 photographs with published marks of the pupils
 */
const SEEN_LOW = 0.002

/**
 * Reads the irises in a picture at its full size.
 * @param mesh of the face in its pixels
 */
export function findIrises(picture: RgbPicture, mesh: readonly MeshPoint[]): FoundIrises {
  const places = meshEyes(mesh)
  const [left, right] = places
  const [dx, dy] = [right[0] - left[0], right[1] - left[1]]
  const [eyeDistance, lean] = [Math.hypot(dx, dy), Math.atan2(dy, dx)]
  const read = (eye: 0 | 1): Place | null => {
    const square = eyeSquare(picture, places[eye], eyeDistance)
    const fit = irisFit(square, lean)
    const found = [square.left + square.step * fit.x, square.top + square.step * fit.y] as const
    return isIris(fit, square.step, found, openingOf(mesh, eye), lean)
      ? [found[0] + SEEN_LOW * dy, found[1] - SEEN_LOW * dx]
      : null
  }
  const fits = [read(0), read(1)] as const
  const ways = (direction: number) =>
    fits.map((fit, eye) => fit && alongOf(fit, places[eye as 0 | 1], direction))
  const aside = ways(lean)
  if (apart(aside) > MOST_APART * eyeDistance || apart(ways(lean + Math.PI / 2)) > MOST_ASKEW * eyeDistance)
    return { irises: places, irisesSeen: false }
  const looks = aside[0] ?? aside[1] ?? 0
  const way = Math.abs(looks) > MOST_APART * eyeDistance ? looks : 0
  const moved = ([x, y]: Place): Place => [x + way * Math.cos(lean), y + way * Math.sin(lean)]
  return {
    irises: [fits[0] ?? moved(left), fits[1] ?? moved(right)],
    irisesSeen: fits.every((fit) => fit !== null),
  }
}

/** How much two ways differ; 0 where one is not known. */
function apart([left, right]: readonly (number | null | undefined)[]): number {
  return left != null && right != null ? Math.abs(left - right) : 0
}

/** Whether a circle can be the edge of an iris that shows: clear on both sides, of a size that irises have, and between lids that are open. */
function isIris(
  fit: IrisFit,
  step: number,
  found: Place,
  { height, middle }: Opening,
  lean: number,
): boolean {
  const aboveOrBelow = Math.abs(alongOf(found, middle, lean + Math.PI / 2))
  return (
    fit.leastContrast >= LEAST_CONTRAST &&
    !isExtreme(fit) &&
    height >= LEAST_OPEN * 2 * fit.radius * step &&
    aboveOrBelow <= height / 2
  )
}

/** The way from one place to another along a direction, radians, px. */
function alongOf([x, y]: Place, [fromX, fromY]: Place, direction: number): number {
  return (x - fromX) * Math.cos(direction) + (y - fromY) * Math.sin(direction)
}
