import { patchAround } from '../../../imaging/patch.ts'
import type { RgbPicture } from '../../../imaging/rgb-picture.ts'
import { areBlocksDoubled } from './doubled-blocks.ts'
import { earlyFallOff } from './fall-off.ts'
import { columnRhythm, turned } from './rhythm.ts'
import { BLOCK_PX, strongestTone } from './tones.ts'

/** Half the side of the square that is looked at, px. @choice more costs time and finds no more. */
const REACH_PX = 320

/** Least side of it, px. @choice fewer pixels tell too few frequencies apart, no source. */
const LEAST_SIDE_PX = 256

/** Power of a tone that only resizing leaves. @tuned on 79 photographs at their own size, saved at qualities 75 to 100: at most 7.6. */
const RESIZED = 12

/**
 * Early fall-off from which on what was resized was made larger, nepers; half the logarithm of the tone is added, since enlarging leaves the
 * stronger ones.
 * @tuned on half of the sitters of 69 photographs, made smaller and larger, and tested on the others: made smaller at most 14.5
 */
const LARGER = 14.8

/** Share of the tone's logarithm that is added. @tuned on the same: a logistic regression gave 0.56. */
const TONE_SHARE = 0.5

/**
 * Whether a picture was enlarged: by the pattern that resizing repeats across and down, of smoother and rougher columns or of the
 * blocks of an earlier JPEG, and a spectrum that ends early. A picture that is merely soft has no such pattern. Null for one that is too small.
 * @param center what the square that is read lies around, px
 * @source Popescu and Farid, "Exposing digital forgeries by detecting traces of resampling", IEEE Transactions on Signal Processing 53(2), 2005, and
 *   Gallagher, "Detection of linear and cubic interpolation in JPEG compressed images", CRV 2005; from memory.
 */
export function isEnlarged(
  picture: RgbPicture,
  center: { readonly x: number; readonly y: number },
): boolean | null {
  // Blocks of a JPEG begin at the border of the square then.
  const onBlock = (value: number) => BLOCK_PX * Math.round(value / BLOCK_PX)
  const place = { x: onBlock(center.x), y: onBlock(center.y) }
  const patch = patchAround(picture, place, { x: REACH_PX, y: REACH_PX })
  if (Math.min(patch.width, patch.height) < LEAST_SIDE_PX) return null
  const patches = [patch, turned(patch)]
  const rhythms = patches.map(columnRhythm)
  const tone = strongestTone(rhythms)
  if (tone < RESIZED && !areBlocksDoubled(rhythms)) return false
  return earlyFallOff(patches) + TONE_SHARE * Math.log(Math.min(tone, MOST_TONE)) >= LARGER
}

/** Beyond it a tone adds no more. @tuned on the same. */
const MOST_TONE = 400
