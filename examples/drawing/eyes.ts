import { filtered, fromHex, mix, type Rgb, toCss } from './color.ts'
import { along, mm, type Point } from './path.ts'
import { blurred, crisp, curve, ellipse, fill, line, type Scene } from './scene.ts'

/** Half of the inter-pupillary distance: the drawing's own unit is fixed by it. */
export const HALF_PUPIL_DISTANCE = 32

/** Iris radius; 11.7 mm across in nearly every adult. */
const IRIS = 5.85

export function eyes(scene: Scene): string {
  const opening = scene.look.proportions.eyeOpening * scene.moment.eyes
  const lid = eyeShape(opening)
  return [
    `<clipPath id="eye"><path d="${lid.outline}"/></clipPath>`,
    irisGradient(fromHex(scene.look.eyes)),
    ...([-1, 1] as const).map(
      (side) =>
        `<g transform="translate(${side * HALF_PUPIL_DISTANCE} 0) scale(${side} 1)">${eye(scene, lid, side)}</g>`,
    ),
  ].join('')
}

interface EyeShape {
  readonly upper: readonly Point[]
  readonly lower: readonly Point[]
  readonly outline: string
}

/** One eye with the iris at the origin and the outer corner to the right. */
function eyeShape(opening: number): EyeShape {
  const up = -0.56 * opening
  const low = 0.49 * opening
  const upper: Point[] = [
    [-15.6, 2.4],
    [-12, -1],
    [-6.5, up * 0.86],
    [0, up],
    [6.4, up * 0.88],
    [11.6, up * 0.44],
    [15.4, -0.8],
  ]
  const lower: Point[] = [
    [15.4, -0.8],
    [11, 2.7],
    [4.8, low * 0.97],
    [-1.5, low],
    [-8, low * 0.84],
    [-13, 3.3],
    [-15.6, 2.4],
  ]
  return { upper, lower, outline: `${curve(...upper)}${curve(...lower).replace('M', 'L')}Z` }
}

function irisGradient(color: Rgb): string {
  const stops: [number, Rgb][] = [
    [0.3, filtered(color, [0.62, 0.58, 0.55])],
    [0.62, mix(color, [255, 236, 200], 0.2)],
    [0.84, color],
    [1, filtered(color, [0.34, 0.33, 0.36])],
  ]
  return `<radialGradient id="iris" gradientUnits="userSpaceOnUse" cx="0" cy="0" r="${IRIS}">${stops.map(([at, stop]) => `<stop offset="${at}" stop-color="${toCss(stop)}"/>`).join('')}</radialGradient>`
}

function eye(scene: Scene, lid: EyeShape, side: -1 | 1): string {
  const { palette, key, random, look } = scene
  const white = mix([240, 233, 226], palette.skin, 0.05)
  const { count, size } = scene.reflections.catchlights
  const catchlight = key * side * 2
  const fibers = Array.from({ length: 26 }, () => {
    const angle = random.between(0, Math.PI * 2)
    const [x, y] = [Math.cos(angle), Math.sin(angle)]
    return `M${mm(x * 2.3)} ${mm(y * 2.3)}L${mm(x * 5)} ${mm(y * 5)}`
  }).join('')
  return [
    `<g clip-path="url(#eye)"><rect x="-16" y="-9" width="32" height="18" fill="${toCss(white)}"/>`,
    blurred(
      1,
      ellipse([-14, 2], [3, 3], [196, 120, 108], 0.75),
      ellipse([14, 0], [4, 4], palette.skinShadow, 0.55),
    ),
    `<circle r="${IRIS}" fill="url(#iris)"/>`,
    crisp(line(fibers, [250, 232, 205], 0.28, 0.28), ellipse([0, 0], [2.25, 2.25], [8, 7, 8])),
    blurred(0.5, ellipse([-catchlight * 0.9, 3], [2.6, 1.2], [255, 244, 220], 0.3)),
    // The lid's own shadow on the eyeball.
    blurred(1, line(curve(...lid.upper), [40, 26, 24], 3.4, 0.62)),
    count > 0 ? catchlightAt(catchlight, -2.05, size) : '',
    count > 1 ? catchlightAt(-catchlight * 0.8, 2, 0.7 * size) : '',
    '</g>',
    lids(scene, lid),
    lashes(scene, lid, look.makeup ? 1 : 0.55),
  ].join('')
}

/** A softbox seen in the eye, 2.2 x 2.5 mm at size 1. */
function catchlightAt(x: number, y: number, size: number): string {
  return `<rect x="${mm(x - 1.1 * size)}" y="${mm(y - 1.25 * size)}" width="${mm(2.2 * size)}" height="${mm(2.5 * size)}" rx="${mm(0.7 * size)}" fill="#fff"/>`
}

function lids({ palette, look }: Scene, lid: EyeShape): string {
  const crease = lid.upper.map(([x, y]): Point => [x * 1.02, y * 1.18 - 3.4])
  const fold = crease.slice(1)
  const bag = lid.lower.map(([x, y]): Point => [x, y + 1])
  return [
    blurred(
      1.2,
      line(
        curve(...lid.upper.slice(1).map(([x, y]): Point => [x, y - 2.6])),
        palette.skinLight,
        1.4,
        0.3 + 0.2 * palette.depth,
      ),
    ),
    blurred(0.5, line(curve(...fold), palette.skinDeep, 1.15, 0.62 + 0.2 * look.proportions.lines)),
    blurred(0.5, line(curve(...bag), palette.skinLight, 1.1, 0.4)),
    crisp(fill(curve([-15.4, 2.1], [-13.4, 1.1], [-12.2, 2.6], [-13.6, 3.4]), [190, 116, 104], 0.7)),
  ].join('')
}

function lashes({ palette, random }: Scene, lid: EyeShape, length: number): string {
  const heavy = lid.upper
    .map(([x, y], index): Point => [x, y - (index === 0 ? 0 : 0.5 + 0.15 * index * length)])
    .reverse()
  const upper = Array.from({ length: 26 }, (_, index) => {
    const root = index / 25
    const [x, y] = along(lid.upper, 0.12 + 0.88 * root)
    const reach = (1 + 2.2 * root) * length * random.between(0.8, 1.15)
    return `M${mm(x)} ${mm(y)}Q${mm(x + root * reach * 0.5)} ${mm(y - reach * 0.4)} ${mm(x + (root - 0.15) * reach)} ${mm(y - reach)}`
  }).join('')
  return crisp(
    fill(`${curve(...lid.upper)}${curve(...heavy).replace('M', 'L')}Z`, palette.lash, 0.95),
    line(curve(...lid.upper), palette.lash, 0.75, 0.9),
    line(upper, palette.lash, 0.3, 0.5),
    line(curve(...lid.lower.slice(0, 5)), palette.lash, 0.45, 0.5),
  )
}
