import { shareOf } from '../../../imaging/masks.ts'
import type { PlacedPatch } from '../../../imaging/patch.ts'
import { grow } from '../../../kernels/masks.ts'
import type { EyeReflections, Reflections } from '../glare/see-reflections.ts'

/**
 * Share of an eye's edges on reflections from which its spread is theirs.
 * @tuned on drawn and photographed eyes: naked, with catchlights and behind clean lenses 0 to 0.2; behind tubes as thin as rims 0.27; behind a light
 *   of a tenth of a lens or more, whose own edges lie in sight, from 0.31 on. Chosen half-way without each of 38 sitters in spectacles in turn it is 0.26 to 0.29,
 *   and none of their 183 eyes is told otherwise
 */
const HIDDEN = 0.25

/**
 * Share of an iris under reflections from which the eye is hidden, wherever their edges lie.
 * @choice half: what is left is little more than lids. Of 245 pictures one eye is hidden by it alone, wholly under a light: from 0.3 to 0.99 none is told otherwise
 */
const COVERED = 0.5

/** How far beside a reflection its edge reaches, share of the inter-eye distance. @choice half a millimeter, no source. */
const EDGE = 0.01

/**
 * At which eyes most of what could be read is the edge of a reflection, left and right. Where skin is so pale that not all
 * reflections are seen, a lens that is known to reflect speaks for both.
 */
export function hiddenEyes(
  [left, right]: readonly [PlacedPatch, PlacedPatch],
  { eyes, eyeDistance, skinColorless, mayBeMakeUp }: Reflections,
): readonly [boolean, boolean] {
  // Its edges are as sharp as those of the lids.
  if (mayBeMakeUp) return [false, false]
  const isHidden = (patch: PlacedPatch, eye: EyeReflections) =>
    shareOf(eye.glare, eye.patch.innerIris) > COVERED ||
    reflectedShare(patch, eye, Math.max(1, Math.round(EDGE * eyeDistance))) > HIDDEN
  const hidden = [isHidden(left, eyes[0]), isHidden(right, eyes[1])] as const
  return skinColorless && (hidden[0] || hidden[1]) ? [true, true] : hidden
}

/**
 * Share of a patch's edges that lie on or beside reflections, 0 to 1. Edges are weighed by the square of their slope and by
 * the window through which their spectrum is read.
 * @param edge how far beside, in px
 */
function reflectedShare({ luma, width, height, left, top }: PlacedPatch, eye: EyeReflections, edge: number) {
  if (!eye.all.includes(1)) return 0
  const { patch } = eye
  const near = grow(eye.all, patch.width, patch.height, edge)
  const [across, down] = [window(width), window(height)]
  let all = 0
  let reflected = 0
  // What both patches have of a row.
  const from = Math.max(1, patch.left - left)
  const to = Math.min(width - 1, patch.left + patch.width - left)
  for (let y = 1; y < height - 1; y++) {
    const row = y + top - patch.top
    const isInside = row >= 0 && row < patch.height
    const nearStart = row * patch.width + left - patch.left
    all += (down[y] as number) * edgesOf(luma, width, y, across, 1, width - 1)
    if (isInside)
      reflected += (down[y] as number) * edgesOf(luma, width, y, across, from, to, near, nearStart)
  }
  return all === 0 ? 0 : reflected / all
}

/** The weighed squares of slopes in a part of a row, as far as a mask covers it. @param start index in the mask of where the row begins */
function edgesOf(
  luma: Float32Array,
  width: number,
  y: number,
  across: Float64Array,
  from: number,
  to: number,
  near: Uint8Array | null = null,
  start = 0,
): number {
  const row = y * width
  let sum = 0
  for (let x = from; x < to; x++) {
    if (near && near[start + x] !== 1) continue
    const slopeX = (luma[row + x + 1] as number) - (luma[row + x - 1] as number)
    const slopeY = (luma[row + x + width] as number) - (luma[row + x - width] as number)
    sum += (across[x] as number) * (slopeX * slopeX + slopeY * slopeY)
  }
  return sum
}

/** The square of a Hann window. */
function window(length: number): Float64Array {
  const squares = new Float64Array(length)
  for (let i = 0; i < length; i++) squares[i] = Math.sin((Math.PI * (i + 0.5)) / length) ** 4
  return squares
}
