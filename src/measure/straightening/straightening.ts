import type { RgbPicture } from '../../imaging/rgb-picture.ts'
import { type Channels, forgetStrips } from '../../kernels/strips/sides.ts'
import type { DecodedPicture } from '../file/decoded-picture.ts'
import { SIDES } from '../intrusions/frame-line.ts'
import type { Straightening } from '../schema/measurements.ts'
import { CANVASES, type Turned } from './canvas.ts'
import type { FillLine, FillLines } from './fill-line.ts'
import { type FlatFill, flatFill } from './flat-fill.ts'
import { findOwnPixels } from './own-pixels.ts'
import { type SideStrip, sideStrip } from './side-strip.ts'
import { findThinFill, THIN_PX } from './thin-fill.ts'
import { linesOf } from './turn-search.ts'
import { areaOf, regionOf } from './wedge-region.ts'

export interface FilledFrame {
  readonly straightening: Straightening
  readonly lines: FillLines
}

/**
 * What turning a picture without cropping it left along the sides of the frame: wedges or strips of one color, of
 * transparency, of outermost rows repeated, or of the picture mirrored. Null when there is nothing of the kind.
 * @param picture at full size, where wedges of one color are seen that are thinner than a pixel of the copy
 * @param copy the picture as it is searched for the others; the lines are in its px
 * @param alpha its opacity as a gray picture of that size, 0 where it is transparent; null when all of it is opaque
 */
export function findStraightening(
  picture: DecodedPicture,
  copy: RgbPicture,
  alpha: RgbPicture | null,
): FilledFrame | null {
  forgetStrips()
  const { width, height } = picture
  const clear = alpha && picture.alpha && { data: picture.alpha, width, height, isGray: true }
  const transparent = alpha && clear && (flatLines(stripsOf(alpha)) ?? thinLines(thinOf(clear, copy.width)))
  if (transparent) return told(copy, { fill: 'transparent', color: null }, transparent.lines)
  const strips = stripsOf(copy)
  const thin = thinOf(picture, copy.width)
  const flat = flatLines(strips) ?? thinLines(thin)
  if (flat) return told(copy, { fill: 'flat', color: [...flat.color] }, flat.lines)
  const own = findOwnPixels(strips, thin.strips, thin.scale)
  return own && told(copy, { fill: own.fill, color: null }, own.lines)
}

function stripsOf(picture: Channels, most?: number): SideStrip[] {
  return SIDES.map((side) => sideStrip(picture, side, most))
}

interface Flat {
  readonly lines: FillLines
  readonly color: FlatFill['color']
}

/** The outermost px of a picture at full size. */
interface Thin {
  readonly strips: readonly SideStrip[]
  /** Px of the copy for each of them. */
  readonly scale: number
}

function thinOf(picture: Channels, copyWidth: number): Thin {
  return { strips: stripsOf(picture, THIN_PX), scale: copyWidth / picture.width }
}

/** The lines of thin wedges of one color. */
function thinLines(thin: Thin): Flat | null {
  const found = findThinFill(thin.strips)
  return found && { lines: inCopy(thin, found.turned), color: found.color }
}

/** Where the picture begins, in px of the copy. */
function inCopy({ strips, scale }: Thin, turned: Turned): FillLine[] {
  return linesOf(strips, turned).map(({ start, slope }) => ({ start: scale * start, slope }))
}

/** How far two lines may lie apart and be the same, px at working size. @choice what rounding to whole px at either end moves; no source. */
const SAME = 2.5

/** The lines of flat fill on the sides where it was found, and, where those fit a turned picture, on the others too. */
function flatLines(strips: readonly SideStrip[]): Flat | null {
  const found = strips.map((strip) => flatFill(strip))
  const [best] = found.flatMap((fill) => fill ?? []).toSorted((p, q) => q.share - p.share)
  if (!best) return null
  for (const canvas of CANVASES) {
    const lines = linesOf(strips, { slope: best.slope, canvas })
    const fits = found.filter((fill, i) => fill && isSame(fill, lines[i] as FillLine, strips[i] as SideStrip))
    if (best.slope !== 0 && fits.length >= 2) return { lines, color: best.color }
  }
  const alike = found.map((fill) => (fill && distance(fill.color, best.color) <= ALIKE ? fill : null))
  const sides = alike.flatMap((fill) => fill ?? []).length
  return sides >= 2 || isBlackOrWhite(best.color) ? { lines: alike, color: best.color } : null
}

/** How far two fills may differ and be one color, codes. @choice what JPEG leaves of a flat color; no source */
const ALIKE = 6

/** How far from black or white a fill is still that, codes. @choice what JPEG leaves of them; no source */
const PURE = 3

/** On one side alone another color may be that of a wall beside the backdrop, which is looked for elsewhere. */
function isBlackOrWhite(color: FlatFill['color']): boolean {
  return distance(color, [0, 0, 0]) <= PURE || distance(color, [255, 255, 255]) <= PURE
}

function distance(one: FlatFill['color'], other: FlatFill['color']): number {
  return Math.max(...one.map((code, i) => Math.abs(code - (other[i] as number))))
}

function isSame(one: FillLine, other: FillLine, { length }: SideStrip): boolean {
  const endApart = one.start - other.start + length * (one.slope - other.slope)
  return Math.max(Math.abs(one.start - other.start), Math.abs(endApart)) <= SAME
}

function told(
  { width, height }: RgbPicture,
  { fill, color }: Pick<Straightening, 'fill' | 'color'>,
  lines: FillLines,
): FilledFrame {
  const regions = lines.flatMap((line, i) => {
    const side = SIDES[i]
    return line && side ? (regionOf(line, side, width, height) ?? []) : []
  })
  const steepest = Math.max(...lines.map((line) => Math.abs(line?.slope ?? 0)))
  const angleDeg = (Math.atan(steepest) * 180) / Math.PI
  const area = lines.reduce(
    (sum, line, i) => sum + (line ? areaOf(line, i % 2 === 0 ? width : height) : 0),
    0,
  )
  return {
    straightening: {
      fill,
      color,
      angleDeg,
      areaPct: Math.min(100, (100 * area) / (width * height)),
      regions,
    },
    lines,
  }
}
