import { headHalf } from './head-outline.ts'
import { along, lerp, mirrored, mm, onSide, type Point, smooth } from './path.ts'
import { blurred, crisp, ellipse, line, type Scene, strandColor, together } from './scene.ts'

/** How far a beard stands off the jaw and how long its hairs are, mm; how solid it is; how many hairs show. */
const BEARDS = {
  none: { off: 0, solid: 0, hairs: 0, length: 0 },
  stubble: { off: 0.2, solid: 0.3, hairs: 900, length: 1.1 },
  short: { off: 1.8, solid: 0.78, hairs: 1200, length: 3 },
  full: { off: 4.5, solid: 0.95, hairs: 1500, length: 5.5 },
} as const

export function beard(scene: Scene): string {
  const { palette, look } = scene
  const kind = BEARDS[look.beard]
  if (kind.hairs === 0) return ''
  const { headBreadth, chinBelowEyes: down, mouthWidth } = look.proportions
  const half = headBreadth / 2
  const mouth = mouthWidth / 2
  const grown = headHalf(look.proportions).map(
    ([x, y]): Point => [x + kind.off * 0.8 * (x / half), y + kind.off * Math.max(0, y / down - 0.3)],
  )
  const outer: Point[] = [[0.955 * half, 0.16 * down], ...grown.slice(6)]
  const inner: Point[] = [
    [0.9 * half, 0.18 * down],
    [0.84 * half, 0.34 * down],
    [0.7 * half, 0.52 * down],
    [mouth + 12, 63],
    [mouth + 6, 71],
    [mouth * 0.8, 84],
    [0, 87.5],
  ]
  const band = (share: number): Point[] =>
    carriedOver(
      Array.from({ length: 9 }, (_, step) => lerp(along(inner, step / 8), along(outer, step / 8), share)),
    )
  const moustache = carriedOver([
    [mouth + 6, 76],
    [mouth + 1, 66],
    [12, 58.5],
    [0, 59],
  ])
  const shade = together(
    ...[0.3, 0.55, 0.8].map((share) => line(smooth(band(share)), palette.hair, 7, kind.solid * 0.7)),
    line(smooth(moustache), palette.hair, 5, kind.solid * 0.8),
  )
  // Without light on the chin's ball and dark along its rim a dense beard hides where the chin ends.
  const rim = blurred(2.5, line(smooth(band(0.97).slice(4, -4)), palette.hairDark, 4, kind.solid * 0.75))
  const ball = blurred(5, ellipse([scene.key * 3, down - 13], [13, 5], palette.hairLight, 0.5 * kind.solid))
  return [
    `<clipPath id="beard"><path d="${smooth(mirrored(grown), true)}"/></clipPath><g clip-path="url(#beard)">${blurred(3.2, shade)}${rim}</g>`,
    hairs(scene, inner, outer),
    ball,
  ].join('')
}

function hairs({ palette, look, random }: Scene, inner: readonly Point[], outer: readonly Point[]): string {
  const kind = BEARDS[look.beard]
  const half = look.proportions.headBreadth / 2
  const mouth = look.proportions.mouthWidth / 2
  return Array.from({ length: kind.hairs }, () => {
    const side = random.next() < 0.5 ? -1 : 1
    const onLip = random.next() < 0.22
    const place = random.next()
    const from = onLip
      ? along(
          [
            [1, 55.5],
            [12, 55.5],
            [mouth + 4, 66],
          ],
          place,
        )
      : along(inner, place)
    const to = onLip
      ? along(
          [
            [0, 63],
            [10, 63],
            [mouth + 2, 72],
          ],
          place,
        )
      : along(outer, place)
    const [x, y] = lerp(from, to, random.next())
    const lean = (onLip ? 0.8 : 0.1 + 0.25 * (x / half)) * kind.length + random.between(-0.5, 0.5)
    const hair = `M${mm(side * x)} ${mm(y)}l${mm(side * lean)} ${mm(kind.length * random.between(0.5, 1))}`
    return crisp(line(hair, strandColor(palette, random), random.between(0.35, 0.8), 0.35 + 0.4 * kind.solid))
  }).join('')
}

/** A run of points from one side to the axis, carried on to the other side. */
function carriedOver(points: readonly Point[]): Point[] {
  return [...points, ...onSide(points.slice(0, -1), -1).reverse()]
}
