import { labPlanes } from '../../../color/lab.ts'
import type { RgbPicture } from '../../../imaging/rgb-picture.ts'
import type { DecodedPicture } from '../../file/decoded-picture.ts'
import { decoder } from '../../file/decoder.ts'
import { type Comparison, NO_COMPARISON } from '../../schema/preview-facts.ts'
import { compareAligned, SAME_TONES_UP_TO, SAME_UP_TO } from './aligned.ts'
import { withoutBars } from './bars.ts'
import { type Plane, shrink } from './plane.ts'
import { centered, correlate, type Fit, findWithin } from './search.ts'
import { TURNS, turned } from './turns.ts'

/** Largest size at which previews are compared, px of the long edge. @source DCF 2.0 (CIPA DC-009): thumbnails are 160 x 120 px, from memory. */
export const PREVIEW_EDGE = 160

/** Smallest preview that is compared, px of the short edge. @choice no source: a head is a dozen pixels then. */
const LEAST_EDGE = 32

/** Edge of the squares to which pictures are squeezed to find out whether one is the other, turned, px. @choice no source: enough to tell top from bottom. */
const GRID = 32

/** Standard deviation below which a picture shows nothing that could be found again, L*. @choice no source: about what noise and JPEG leave of a plain wall. */
const FLAT = 2

/** Least correlation of L* of copies of one frame. @tuned on copies of portraits, which reach 0.99; what was traded is not recorded. */
const SAME_FRAME = 0.9

/** Correlation from which the other way round, the preview within the picture, is not tried. @choice below what copies reach, no source. */
const SURE = 0.98

/** By how much a crop must correlate better than the whole picture to be the explanation. @choice no source: a crop of nearly all always fits a little better. */
const BETTER = 0.005

/**
 * What a preview shows beside the picture that it stands in. They are laid over each other first, whole, cropped or
 * turned; differences are looked for where they lie over each other, at the size of the preview. What is smaller, such
 * as a blemish of 1 % of the long edge or a crop by as much, can't be seen in it.
 * @param preview as displayed, at most 160 px
 */
export async function compare(preview: RgbPicture, picture: DecodedPicture): Promise<Comparison> {
  const { width, height } = preview
  if (Math.min(width, height) < LEAST_EDGE) return unclear('too-small')
  const lightness: Plane = { data: labPlanes(preview.data, width * height).L, width, height }
  if (centered(lightness.data).norm < FLAT * Math.sqrt(width * height)) return unclear('flat')

  // Squeezed into each other: rounding changes the shape of a preview, and so do cameras that have one size for all.
  const whole = await compareWhole(preview, picture)
  // Where nothing differs much and still nothing agrees, there is hardly anything to see.
  if (whole.shows === 'same') return likeness(whole) >= SAME_FRAME ? whole : unclear('flat')
  const copy = await proportionalCopy(picture)
  const crop = cropOf(lightness, copy)
  const turn = turnOf(lightness, copy)
  const best = Math.max(crop.score, turn.score)
  if (likeness(whole) >= SAME_FRAME && likeness(whole) + BETTER >= best) return whole
  if (best < SAME_FRAME)
    return {
      ...NO_COMPARISON,
      shows: 'other-picture',
      similarity: Math.max(best, likeness(whole)),
    }
  if (turn.score > crop.score) return { ...NO_COMPARISON, shows: 'turned', turn: turn.name, similarity: best }
  const bare = withoutBars(preview, crop)
  const inner = bare && (await compareWhole(bare, picture))
  if (inner && likeness(inner) >= SAME_FRAME) return inner
  const { score, ...box } = crop
  return { ...NO_COMPARISON, shows: 'other-crop', crop: box, similarity: score }
}

/** For ranking: one that was not found out is like nothing. */
export function likeness({ similarity }: Comparison): number {
  return similarity ?? -1
}

function unclear(doubt: NonNullable<Comparison['doubt']>): Comparison {
  return { ...NO_COMPARISON, doubt }
}

async function compareWhole(preview: RgbPicture, picture: DecodedPicture): Promise<Comparison> {
  const { width, height } = preview
  const own = labPlanes(preview.data, width * height)
  const other = labPlanes(await copyOf(picture, width, height), width * height)
  const { tones, largest, changed } = compareAligned(own, other, width, height)
  const similarity = correlate(centered(own.L), width, { data: other.L, width, height }, 0)
  const common = { ...NO_COMPARISON, similarity, tones, largestChange: largest }
  if (changed) {
    const { pct, left, top, right, bottom } = changed
    const box = {
      x: left / width,
      y: top / height,
      width: (right - left) / width,
      height: (bottom - top) / height,
    }
    return { ...common, shows: 'other-retouch', changed: box, changedPct: pct }
  }
  if (tones > SAME_TONES_UP_TO) return { ...common, shows: 'other-tones' }
  return largest <= SAME_UP_TO ? { ...common, shows: 'same' } : { ...common, doubt: 'hardly-different' }
}

/** The part of the preview that the picture takes; beyond 0..1 where the picture shows more than the preview. */
function cropOf(preview: Plane, picture: Plane): Fit {
  const inside = findWithin(picture, preview)
  const around = inside.score < SURE ? findWithin(preview, picture) : inside
  if (inside.score >= around.score) return inside
  const { x, y, width, height, score } = around
  return { x: -x / width, y: -y / height, width: 1 / width, height: 1 / height, score }
}

/** How the preview would have to be turned to be the picture. */
function turnOf(preview: Plane, picture: Plane): { name: string; score: number } {
  if (Math.min(picture.width, picture.height) < GRID) return { name: '', score: 0 }
  const grid = shrink(preview, GRID, GRID).data
  const other = shrink(picture, GRID, GRID)
  const scores = TURNS.map((turn) => {
    return { name: turn.name, score: correlate(centered(turned(grid, GRID, turn)), GRID, other, 0) }
  })
  return scores.reduce((best, one) => (one.score > best.score ? one : best))
}

async function proportionalCopy(picture: DecodedPicture): Promise<Plane> {
  const scale = Math.min(1, PREVIEW_EDGE / Math.max(picture.width, picture.height))
  const width = Math.max(1, Math.round(picture.width * scale))
  const height = Math.max(1, Math.round(picture.height * scale))
  return { data: labPlanes(await copyOf(picture, width, height), width * height).L, width, height }
}

async function copyOf(
  { data, width, height }: DecodedPicture,
  toWidth: number,
  toHeight: number,
): Promise<Buffer> {
  return decoder(data, { raw: { width, height, channels: 3 } })
    .resize(toWidth, toHeight, { fit: 'fill', kernel: 'cubic' })
    .raw()
    .toBuffer()
}
