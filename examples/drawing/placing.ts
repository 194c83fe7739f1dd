import sharp from 'sharp'
import type { Frame } from './frame.ts'
import type { Look } from './look.ts'
import { NO_GLARE } from './reflections.ts'
import { type Stand, sitterSvg } from './sitter-svg.ts'
import { crownRow } from './truth.ts'

/** Pixels per drawing millimeter of the trial drawing that finds how high the hair stands. */
const TRIAL_SCALE = 1.5

// A trial takes as long as a small portrait, and the same sitters are drawn again and again.
const known = new WeakMap<Look, Map<number, Promise<number>>>()

/** Silhouette above the eyes, hair and headwear included, in drawing millimeters at this tilt. */
function crownAboveEyes(look: Look, tiltDeg: number): Promise<number> {
  const ofLook = known.get(look) ?? new Map<number, Promise<number>>()
  known.set(look, ofLook)
  const crown = ofLook.get(tiltDeg) ?? triedCrown(look, tiltDeg)
  ofLook.set(tiltDeg, crown)
  return crown
}

async function triedCrown(look: Look, tiltDeg: number): Promise<number> {
  // What lies below the eyes says nothing of the hair's height.
  const [width, height, eyeY] = [480, 300, 300]
  const stand: Stand = { x: width / 2, y: eyeY, scale: TRIAL_SCALE, tiltDeg }
  const svg = sitterSvg(look, -1, NO_GLARE, stand, width, height)
  const { data } = await sharp(Buffer.from(svg)).ensureAlpha().raw().toBuffer({ resolveWithObject: true })
  const face = look.proportions.headBreadth * TRIAL_SCALE
  const row = crownRow(data, 4, width, height, [width / 2 - face, width / 2 + face], face)
  return (eyeY - (row ?? 0)) / TRIAL_SCALE
}

/** Finds where and how large to draw, so that the sitter comes to lie as the frame asks. */
export async function placed(look: Look, frame: Frame): Promise<Stand> {
  const tiltDeg = frame.tiltDeg ?? 0
  const { placement, heightPx, widthPx } = frame
  const x = widthPx * (0.5 + (frame.offsetX ?? 0))
  if ('headWidth' in placement) {
    return {
      x,
      y: placement.eyeY * heightPx,
      scale: (placement.headWidth * widthPx) / look.proportions.headBreadth,
      tiltDeg,
    }
  }
  const above = await crownAboveEyes(look, tiltDeg)
  const crown = placement.crownY * heightPx
  if ('eyeY' in placement) {
    const y = placement.eyeY * heightPx
    return { x, y, scale: (y - crown) / above, tiltDeg }
  }
  const below = look.proportions.chinBelowEyes * Math.cos((tiltDeg * Math.PI) / 180)
  const scale = (placement.chinY * heightPx - crown) / (above + below)
  return { x, y: crown + above * scale, scale, tiltDeg }
}
