import { type LabPlanes, labPlanes } from '../../color/lab.ts'
import type { RgbPicture } from '../../imaging/rgb-picture.ts'
import { upperMedian } from '../../numbers/quantile.ts'
import type { Mask } from '../head/silhouette.ts'
import { FRINGE_LEAST_EYE_DISTANCE_PX } from '../schema/gates.ts'
import type { Fringe } from '../schema/measurements.ts'
import { outlinePoints } from './outline-points.ts'

/** How far the outline of the copy may be off, px of the copy. @choice its hair and shoulders are within two px; no source */
const OFF_PX = 2.5
/** Least of that, px of the picture. @choice where both are of one size, an edge and its blur */
const LEAST_OFF = 4
/** Px of backdrop beyond that, and of the sitter inside of the fringe, whose median is taken. @choice enough for a median over grain; no source */
const BESIDE = 5
/** Least difference from the backdrop that is the sitter's or a fringe's, ΔE*ab. @choice what differs by less is hardly seen beside it; no source */
const EDGE = 5
/** Widest fringe, share of the inter-eye distance. @choice 1.5 mm: what is wider is hair, cloth or its shade; no source */
const WIDEST = 1 / 42
/** The same in px. @choice a line and its blur; and wide lines in large files are found by their outer part */
const WIDEST_PX = { least: 3, most: 12 }
/** Least by which a fringe is lighter or darker than both sides, L*. @choice clearly seen beside a smooth backdrop; no source */
const LEAST_L = 6
/** Largest difference of its color from the median one, L*, a* or b*. @tuned on 37 composites with fringes and 102 portraits without: rims of cloth and hair vary by more */
const ALIKE = 8
/** Fewest places that are read. @choice a hundredth of a usual outline is one place of it; no source */
const LEAST_PLACES = 100

/**
 * The thin line of one color that a mask leaves along a sitter who was put before another backdrop: lighter or darker than
 * both the backdrop and the sitter beside it. A natural edge blends from one into the other; rims of light and shade vary with
 * what they lie on. Null where too little of the outline shows, or the picture is too small.
 * @param picture at full size
 * @param silhouette the sitter in a copy
 * @param backdrop 1 where a pixel of that copy is backdrop
 * @param eyeDistance px of the copy
 */
export function measureFringe(
  picture: RgbPicture,
  silhouette: Mask,
  backdrop: Uint8Array,
  eyeDistance: number,
): Fringe | null {
  const scale = picture.width / silhouette.width
  if (eyeDistance * scale < FRINGE_LEAST_EYE_DISTANCE_PX) return null
  const widest = Math.round(WIDEST * eyeDistance * scale)
  const band = Math.max(WIDEST_PX.least, Math.min(WIDEST_PX.most, widest))
  const off = Math.max(LEAST_OFF, Math.round(OFF_PX * scale))
  const profiles = readProfiles(picture, silhouette, backdrop, off, band + BESIDE)
  const places = [...placesOf(profiles, band)]
  if (places.length < LEAST_PLACES) return null
  const [lighter, darker] = [fringeOf(places, 'light'), fringeOf(places, 'dark')]
  return lighter.outlinePct >= darker.outlinePct ? lighter : darker
}

interface Profiles {
  readonly lab: LabPlanes
  /** Px of each, from inside to outside. */
  readonly length: number
  readonly count: number
}

/** The colors across the outline at each of its places that is wholly in the frame. */
function readProfiles(
  { data, width, height }: RgbPicture,
  silhouette: Mask,
  backdrop: Uint8Array,
  off: number,
  inside: number,
): Profiles {
  const scale = width / silhouette.width
  const points = outlinePoints(silhouette, backdrop)
  const length = inside + 2 * off + BESIDE + 1
  const colors = new Uint8Array(3 * length * points.length)
  let count = 0
  for (const { x, y, outward } of points) {
    let to = 3 * length * count
    let isInFrame = true
    for (let d = -off - inside; d <= off + BESIDE; d++, to += 3) {
      const column = Math.floor(scale * x + d * outward.x)
      const row = Math.floor(scale * y + d * outward.y)
      if (column < 0 || row < 0 || column >= width || row >= height) {
        isInFrame = false
        break
      }
      const from = 3 * (row * width + column)
      for (let c = 0; c < 3; c++) colors[to + c] = data[from + c] as number
    }
    if (isInFrame) count++
  }
  return { lab: labPlanes(colors, length * count), length, count }
}

interface Extreme {
  readonly L: number
  readonly a: number
  readonly b: number
  /** Beyond both sides, L*. */
  readonly by: number
}

interface Place {
  readonly light: Extreme
  readonly dark: Extreme
}

/** The lightest and the darkest pixel of the sitter's outermost ones, against the backdrop and what lies inside of them. */
function* placesOf({ lab, length, count }: Profiles, band: number): Generator<Place> {
  const { L, a, b } = lab
  for (let k = 0, from = 0; k < count; k++, from += length) {
    const outer = (plane: Float32Array) => upperMedian(plane.slice(from + length - BESIDE, from + length))
    const behind = { L: outer(L), a: outer(a), b: outer(b) }
    let edge = length - BESIDE - 1
    const distance = (i: number) =>
      Math.hypot((L[i] as number) - behind.L, (a[i] as number) - behind.a, (b[i] as number) - behind.b)
    while (edge >= 0 && distance(from + edge) <= EDGE) edge--
    const inner = edge - band
    if (inner < BESIDE) continue
    const sitter = upperMedian(L.slice(from + inner - BESIDE, from + inner))
    let [light, dark] = [from + inner + 1, from + inner + 1]
    for (let i = from + inner + 1; i <= from + edge + 1; i++) {
      if ((L[i] as number) > (L[light] as number)) light = i
      if ((L[i] as number) < (L[dark] as number)) dark = i
    }
    const at = (i: number, by: number) => ({ L: L[i] as number, a: a[i] as number, b: b[i] as number, by })
    yield {
      light: at(light, (L[light] as number) - Math.max(behind.L, sitter)),
      dark: at(dark, Math.min(behind.L, sitter) - (L[dark] as number)),
    }
  }
}

function fringeOf(places: readonly Place[], tone: 'light' | 'dark'): Fringe {
  const other = tone === 'light' ? 'dark' : 'light'
  const seen = places
    .filter((place) => place[tone].by > LEAST_L && place[tone].by >= place[other].by)
    .map((place) => place[tone])
  if (seen.length === 0) return { outlinePct: 0, tone: null, contrastL: null }
  const median = (of: (place: Extreme) => number) => upperMedian(Float32Array.from(seen, of))
  const middle = { L: median(({ L }) => L), a: median(({ a }) => a), b: median(({ b }) => b) }
  const alike = seen.filter(
    ({ L, a, b }) => Math.max(Math.abs(L - middle.L), Math.abs(a - middle.a), Math.abs(b - middle.b)) < ALIKE,
  )
  return {
    outlinePct: (100 * alike.length) / places.length,
    tone,
    contrastL: median(({ by }) => by),
  }
}
