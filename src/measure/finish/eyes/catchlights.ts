import { regionsOf } from '../../../imaging/regions.ts'
import { quantile } from '../../../numbers/quantile.ts'
import { type EyeSquare, SQUARE } from '../../face/irises/eye-square.ts'
import type { IrisFit } from '../../face/irises/iris-fit.ts'

/** A reflection of a light in an iris. */
export interface Catchlight {
  /** Its middle from that of the iris in radii of the iris, along the line of the eyes and down from it. */
  readonly across: number
  readonly down: number
  /** How bright and large it is. */
  readonly weight: number
}

/** How far out lights are looked for, radii of the iris. @choice its edge and the white of the eye stay outside; no source */
const WITHIN = 0.85

/** How far from the middle of the iris the middle of a light is at most, radii. @source cornea of 7.8 mm radius (Gullstrand): a light from 60° to the side is seen 3.9 mm from the middle, 0.67 of a radius of 5.85 mm */
const FARTHEST = 0.75

/** How much brighter than most of the iris a light is at least, codes. @tuned on 51 portraits and 50 photographs, whose catchlights all are */
const LEAST_CODES = 50

/** How bright the brightest light is at least, as the way from the iris to the white of the eye. @choice as bright: patterns of pale irises are darker */
const LIKE_WHITE = 1

/** Where the white of the eye is read, in radii of the iris, beside it to both sides; how far above and below; and which quantile, since lids and lashes are darker. @choice no source */
const WHITE = { from: 1.15, to: 1.5, down: 0.3, quantile: 0.75 } as const

/** What of the brightest light belongs to a light, share of how much brighter it is. @choice half, as widths of peaks are told */
const HALF = 0.5

/** Weight of a light that counts beside the greatest, share of it. @choice a quarter: a fainter one may be a wet lid or a window far off; no source */
const COUNTS = 0.25

/** Largest share of the iris under one light. @choice the two soft boxes of lens glare together cover a quarter; more is a veil */
const MOST = 0.3

/**
 * The lights that an iris reflects, the greatest first.
 * @param lean of the line of the eyes, radians, clockwise
 * @param lowerLid how far down from the middle of the iris the lower lid is, radii: the wet line on it shines, but is no mirror of the lights
 */
export function catchlightsOf(
  { gray }: EyeSquare,
  iris: IrisFit,
  lean: number,
  lowerLid: number,
): Catchlight[] {
  const inside: number[] = []
  const reach = WITHIN * iris.radius
  for (let y = Math.ceil(iris.y - reach); y <= iris.y + reach; y++)
    for (let x = Math.ceil(iris.x - reach); x <= iris.x + reach; x++)
      if (Math.hypot(x - iris.x, y - iris.y) <= reach) inside.push(y * SQUARE + x)
  const values = Float32Array.from(inside, (i) => gray[i] as number)
  const usual = quantile(values, 0.5)
  const most = quantile(values, 1) - usual
  if (most < Math.max(LEAST_CODES, LIKE_WHITE * (whiteBeside(gray, iris, lean) - usual))) return []
  const mask = new Uint8Array(gray.length)
  for (const i of inside)
    if ((gray[i] as number) - usual >= Math.max(HALF * most, LEAST_CODES / 2)) mask[i] = 1
  const lights = regionsOf(mask, SQUARE)
    .flatMap((region) => lightOf(region, gray, usual, iris, lean))
    .filter(({ down }) => down < lowerLid)
  lights.sort((a, b) => b.weight - a.weight)
  const [greatest] = lights
  return greatest ? lights.filter(({ weight }) => weight >= COUNTS * greatest.weight) : []
}

/** How bright the white of the eye is at both sides of the iris, code. */
function whiteBeside(gray: Float32Array, { x, y, radius }: IrisFit, lean: number): number {
  const [cos, sin] = [Math.cos(lean), Math.sin(lean)]
  const values: number[] = []
  for (let across = -WHITE.to; across <= WHITE.to; across += 1 / radius) {
    if (Math.abs(across) < WHITE.from) continue
    for (let down = -WHITE.down; down <= WHITE.down; down += 1 / radius) {
      const column = Math.round(x + radius * (across * cos - down * sin))
      const row = Math.round(y + radius * (across * sin + down * cos))
      if (column >= 0 && row >= 0 && column < SQUARE && row < SQUARE)
        values.push(gray[row * SQUARE + column] as number)
    }
  }
  return quantile(Float32Array.from(values), WHITE.quantile)
}

/** Nothing for what the white of the eye or a lid is connected with, or what is as wide as a veil. */
function lightOf(
  region: Int32Array,
  gray: Float32Array,
  usual: number,
  iris: IrisFit,
  lean: number,
): Catchlight[] {
  let [sum, sumX, sumY, atEdge] = [0, 0, 0, 0]
  for (const i of region) {
    const weight = (gray[i] as number) - usual
    const [x, y] = [(i % SQUARE) - iris.x, Math.floor(i / SQUARE) - iris.y]
    sum += weight
    sumX += weight * x
    sumY += weight * y
    if (Math.hypot(x, y) > WITHIN * iris.radius - 1) atEdge++
  }
  const [x, y] = [sumX / sum / iris.radius, sumY / sum / iris.radius]
  if (atEdge > 0 || Math.hypot(x, y) > FARTHEST || region.length > MOST * Math.PI * iris.radius ** 2)
    return []
  const [cos, sin] = [Math.cos(lean), Math.sin(lean)]
  return [{ across: x * cos + y * sin, down: y * cos - x * sin, weight: sum / iris.radius ** 2 }]
}
