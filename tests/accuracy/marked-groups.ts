import { rgbToLab } from '../../src/color/lab.ts'
import { addColorAt } from '../../src/imaging/interpolate.ts'
import type { RgbPicture } from '../../src/imaging/rgb-picture.ts'
import type { Mark } from './marked-folder.ts'

/** What a marked photograph shows, to see whether everybody is measured alike. */
export interface Shown {
  /** By the individual typology angle of the cheeks as the picture shows them. */
  readonly skin: string
  /** Contrast of the jaw from cell to cell, over its lightness: whiskers make it large. */
  readonly roughness: number
}

/**
 * Individual typology angle from which skin is called so, degrees.
 * @source Chardon, Cretois and Hourseau 1991 (Int. J. Cosmetic Science 13), classes as in Del Bino and Bernerd 2013.
 */
const TYPES = [
  [55, 'very light'],
  [41, 'light'],
  [28, 'intermediate'],
  [10, 'tan'],
  [-30, 'brown'],
  [-Infinity, 'dark'],
] as const

// All places and lengths are in distances between the pupils.
const CHEEK_BELOW_EYE = 0.55
const JAW = { aboveChin: 0.35, beside: 0.35 }
const PATCH = 0.24
const CELLS = 15

export function shownIn(picture: RgbPicture, { leftPupil, rightPupil, chin }: Mark): Shown {
  const [dx, dy] = [rightPupil[0] - leftPupil[0], rightPupil[1] - leftPupil[1]]
  const apart = Math.hypot(dx, dy)
  const place = ([x, y]: readonly [number, number], right: number, down: number) => ({
    x: x + right * dx - down * dy,
    y: y + right * dy + down * dx,
  })
  const patch = (at: { x: number; y: number }) => labOf(picture, at, (PATCH * apart) / CELLS)
  const cheeks = [leftPupil, rightPupil].flatMap((eye) => patch(place(eye, 0, CHEEK_BELOW_EYE)))
  const jaws = [-JAW.beside, JAW.beside].map((right) => patch(place(chin, right, -JAW.aboveChin)))
  const angle =
    (Math.atan2(mean(cheeks.map(({ L }) => L)) - 50, mean(cheeks.map(({ b }) => b))) * 180) / Math.PI
  const skin = TYPES.find(([from]) => angle > from)?.[1] ?? ''
  return {
    skin: `skin ${skin}`,
    roughness: Math.min(...jaws.map((jaw) => roughnessOf(jaw.map(({ L }) => L)))),
  }
}

function labOf(picture: RgbPicture, { x, y }: { x: number; y: number }, cell: number) {
  return Array.from({ length: CELLS * CELLS }, (_, i) => {
    const color = Float64Array.of(0, 0, 0)
    const [column, row] = [(i % CELLS) - CELLS / 2, Math.floor(i / CELLS) - CELLS / 2]
    addColorAt(color, picture, x + column * cell, y + row * cell)
    return rgbToLab(...([...color] as [number, number, number]))
  })
}

function roughnessOf(lightness: readonly number[]): number {
  const steps = lightness.flatMap((L, i) => {
    const [right, below] = [lightness[i + 1], lightness[i + CELLS]]
    return right === undefined || below === undefined || i % CELLS === CELLS - 1 ? [] : [L - right, L - below]
  })
  return Math.sqrt(mean(steps.map((step) => step ** 2))) / mean(lightness)
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length
}
