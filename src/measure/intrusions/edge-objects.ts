import { type Region, regionsOf } from '../../imaging/regions.ts'
import { open, without } from '../../kernels/masks.ts'
import { above } from '../../kernels/planes.ts'
import type { Backdrop } from '../backdrop/backdrop.ts'
import type { Pixel } from '../face/face-axes.ts'
import { isBody, isHair, type SitterRoom } from './sitter-room.ts'

/**
 * How much of a region's rim must be an outline, share of it: a shadow or the dark corner of a vignette has none.
 * @tuned on the composites and negatives of the tests (65 found of 65, none of 59).
 */
const OUTLINED = 0.5

/** How much of a region must be where neither the sitter's body nor hair can be, share of it. @tuned on the same composites and negatives. */
const APART = 0.3

/**
 * How far above the shoulder line shoulders and collars may still be, face widths.
 * @choice about the height of the mouth: those of people who turn or lean rise so far; no source
 */
const RAISED = 0.5

/** Thickest bar, share of the face width. @choice thinner than a wrist, 0.4 of it (ANSUR II, from memory). */
const BAR = 0.3

/** Thinnest bar, share of the long edge. @choice thicker than a strand of hair, no source. */
const THICK = 0.005

/** Shortest bar, share of the long edge. @tuned on the same composites and negatives. */
const LONG = 0.08

/** Shortest bar, times its thickness. @choice what is shorter is a thing and no bar, no source. */
const ELONGATED = 4

/** Variance of a uniform bar along itself, its length squared over this. @source that of the uniform distribution. */
const UNIFORM = 12

/** How much wider than its thickness a bar may lie, times the thickness: a bent one lies wider. @tuned on the same composites and negatives. */
const STRAIGHT = 1.6

/** How near the sitter counts as beside a bar, px at working size. @choice beyond the blur between both, no source. */
const BESIDE = 3

/**
 * Largest share of what lies beside a bar that may be the sitter. A bar meets the sitter at an end; hair that the frame cuts
 * lies along the head.
 * @tuned on tight crops of 51 studio portraits, 28 photographs of packages and 24 drawn sitters,
 *   and the composites of the tests
 */
const MOST_ALONG = 0.25

/**
 * Things before the backdrop that reach the frame's edge: those apart from the sitter, of any shape (a clamp, a
 * light, a stand), and straight bars that the sitter stands before.
 * @param ignored 1 where nothing is looked for
 */
export function edgeObjects(backdrop: Backdrop, ignored: Uint8Array, room: SitterRoom): Region[] {
  const { mask, distance, threshold, width, height } = backdrop
  const foreign = without(without(above(distance, threshold), mask), ignored)
  // What is not apart is the sitter's.
  const sitters = foreign.slice()
  const apart: Region[] = []
  for (const region of regionsOf(foreign, width)) {
    const isApart =
      !holdsFace(region, width, room) && countApart(region, width, room) >= APART * region.length
    // A shirt or a shoulder may hang together with what stands behind it and not with the face.
    if (!isApart) continue
    for (const i of region) sitters[i] = 0
    if (touches(region, width, height) && isOutlined(region, foreign, backdrop)) apart.push(region)
  }
  if (!reachesEdge(sitters, width, height, room)) return apart
  const broad = open(sitters, width, height, Math.round((BAR * room.faceWidth) / 2))
  const thin = without(sitters, broad)
  clearBody(thin, width, height, room)
  const bars = regionsOf(thin, width).filter(
    (region) =>
      touches(region, width, height) &&
      isBar(region, width, height, BAR * room.faceWidth) &&
      shareAlong(region, broad, backdrop) <= MOST_ALONG,
  )
  return [...apart, ...bars]
}

/** Takes off what may be the sitter's body. */
function clearBody(mask: Uint8Array, width: number, height: number, room: SitterRoom): void {
  const isBeside = (x: number) => !isBody(room, { x: x + 0.5, y: Infinity })
  let [from, to] = [0, width]
  while (from < width && isBeside(from)) from++
  while (to > from && isBeside(to - 1)) to--
  for (let y = 0; y < height; y++)
    if (from < to && isBody(room, { x: from + 0.5, y: y + 0.5 }))
      mask.fill(0, y * width + from, y * width + to)
}

/** The middle of a pixel. */
function placeOf(i: number, width: number): Pixel {
  return { x: (i % width) + 0.5, y: Math.floor(i / width) + 0.5 }
}

/** Whether the region reaches the middle of the face. */
function holdsFace(region: Region, width: number, { midEyes, faceWidth }: SitterRoom): boolean {
  const radius = faceWidth / 2
  const first = width * Math.floor(midEyes.y - radius)
  const end = width * Math.ceil(midEyes.y + radius)
  for (let k = 0; k < region.length; k++) {
    const i = region[k] as number
    if (i < first || i >= end) continue
    const { x, y } = placeOf(i, width)
    if (Math.abs(x - midEyes.x) > radius) continue
    if (Math.hypot(x - midEyes.x, y - midEyes.y) < radius) return true
  }
  return false
}

function countApart(region: Region, width: number, room: SitterRoom): number {
  let count = 0
  for (const i of region) {
    const place = placeOf(i, width)
    if (!isBody(room, place, RAISED * room.faceWidth) && !isHair(room, place)) count++
  }
  return count
}

/** Whether anything of the mask lies at the frame's edge where no body is. */
function reachesEdge(mask: Uint8Array, width: number, height: number, room: SitterRoom): boolean {
  const reaches = (i: number) => mask[i] === 1 && !isBody(room, placeOf(i, width))
  for (let x = 0; x < width; x++) if (reaches(x) || reaches((height - 1) * width + x)) return true
  for (let y = 0; y < height; y++) if (reaches(y * width) || reaches(y * width + width - 1)) return true
  return false
}

function touches(region: Region, width: number, height: number): boolean {
  return region.some(
    (i) => i < width || i >= width * (height - 1) || i % width === 0 || i % width === width - 1,
  )
}

/** Whether most of the region's rim inside the frame is where lightness jumps. */
function isOutlined(region: Region, foreign: Uint8Array, { outline, width, height }: Backdrop): boolean {
  let [rim, sharp] = [0, 0]
  for (const i of region) {
    const x = i % width
    const inner = x > 0 && x < width - 1 && i >= width && i < width * (height - 1)
    if (!inner) continue
    if (foreign[i - 1] && foreign[i + 1] && foreign[i - width] && foreign[i + width]) continue
    rim++
    if (outline[i] === 1) sharp++
  }
  return sharp >= OUTLINED * rim
}

/** How much of what lies around the region is the sitter and not backdrop; all of it where no backdrop is. */
function shareAlong(region: Region, sitter: Uint8Array, { mask, width, height }: Backdrop): number {
  const seen = new Set<number>()
  let [along, free] = [0, 0]
  for (const i of region) {
    const { x, y } = { x: i % width, y: Math.floor(i / width) }
    for (let row = Math.max(0, y - BESIDE); row <= Math.min(height - 1, y + BESIDE); row++) {
      for (let column = Math.max(0, x - BESIDE); column <= Math.min(width - 1, x + BESIDE); column++) {
        const k = row * width + column
        if (seen.has(k)) continue
        seen.add(k)
        if (sitter[k] === 1) along++
        else if (mask[k] === 1) free++
      }
    }
  }
  return free === 0 ? 1 : along / (along + free)
}

/** Long, thin and straight: the spread along both main axes is that of a bar. */
function isBar(region: Region, width: number, height: number, thickest: number): boolean {
  const n = region.length
  const xs = Array.from(region, (i) => i % width)
  const ys = Array.from(region, (i) => Math.floor(i / width))
  const [mx, my] = [mean(xs), mean(ys)]
  let [xx, yy, xy] = [0, 0, 0]
  for (let k = 0; k < n; k++) {
    const [dx, dy] = [(xs[k] as number) - mx, (ys[k] as number) - my]
    xx += dx * dx
    yy += dy * dy
    xy += dx * dy
  }
  const middle = (xx + yy) / 2
  const apart = Math.hypot((xx - yy) / 2, xy)
  const length = Math.sqrt((UNIFORM * (middle + apart)) / n)
  const across = Math.sqrt((UNIFORM * Math.max(0, middle - apart)) / n)
  const thickness = n / length
  const long = Math.max(width, height)
  if (length < LONG * long || length < ELONGATED * thickness) return false
  return thickness >= THICK * long && thickness <= thickest && across < STRAIGHT * thickness + 1
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length
}
