import { meanOf, shareOf } from '../../../imaging/masks.ts'
import { countOf } from '../../../kernels/masks.ts'
import type { EyePatch } from './eye-patch.ts'
import type { SkinColor } from './skin-color.ts'

/**
 * Least pale color that may be make-up, share of what is around an eye.
 * @tuned on composites of photographs: made-up lids come to a fifth, a small light on both lenses to 3 %. Two faces with pale make-up were at hand: chosen
 *   without each sitter in turn, half-way, it takes no light of 245 pictures for make-up, and misses the make-up of the one that is turned (0.065)
 */
const WIDE = 0.06

/**
 * How much of the pale color is above the middle of the iris, share of it.
 * @tuned on the same composites: 0.70 or more on made-up lids, 0.57 or less where a light is as large; chosen without each sitter in turn, no picture is
 *   told otherwise
 */
const ABOVE = 0.65

/**
 * How much larger it is on one side at most, times the other.
 * @choice twice: lids are made up about alike. Of the 245 pictures none is told otherwise at any limit from 1.28 on, so that none of them bounds it
 */
const UNEVEN = 2

/**
 * A light that covers so much of an iris is no make-up, share of the iris.
 * @tuned on the same composites: catchlights cover 0.10 at most beside make-up, the one light that is on upper lids, too, all of an iris; from 0.10 to 0.94,
 *   and so half-way without either, no picture is told otherwise
 */
const OVER_IRIS = 0.25

interface PaleEye {
  readonly patch: EyePatch
  /** What is paler than skin around the open eye. */
  readonly wide: Uint8Array
}

/**
 * Whether what is paler than skin may be make-up: on the upper lids of both eyes, about alike, and no brighter than skin
 * where the light falls on it. A light that a lens reflects is seldom all of that.
 * @param insideOf mask of what is taken for a reflection over the open eye
 */
export function mayBeMakeUp<Eye extends PaleEye>(
  eyes: readonly [Eye, Eye],
  skin: SkinColor,
  insideOf: (eye: Eye) => Uint8Array,
): boolean {
  const [left, right] = eyes.map(({ patch, wide }) => countOf(wide) / Math.max(1, countOf(patch.around)))
  if (left === undefined || right === undefined) return false
  if (Math.min(left, right) < WIDE || Math.max(left, right) > UNEVEN * Math.min(left, right)) return false
  return eyes.every(
    (eye) =>
      meanOf(eye.patch.luminance, eye.wide) < skin.bright &&
      shareAbove(eye.patch, eye.wide) > ABOVE &&
      shareOf(insideOf(eye), eye.patch.innerIris) < OVER_IRIS,
  )
}

function shareAbove({ width, irisPlace, axis }: EyePatch, mask: Uint8Array): number {
  const downwards = axis.x < 0 ? -1 : 1
  let [above, all] = [0, 0]
  for (let i = 0; i < mask.length; i++) {
    if (mask[i] === 0) continue
    const down = (Math.floor(i / width) - irisPlace.y) * axis.x - ((i % width) - irisPlace.x) * axis.y
    if (down * downwards < 0) above++
    all++
  }
  return all === 0 ? 0 : above / all
}
