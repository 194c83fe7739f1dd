import { along, mm, type Point, resampled, smooth } from './path.ts'
import { blurred, crisp, fill, line, type Scene, strandColor } from './scene.ts'

/** Shape of a head of curls, right half: around the face, and the silhouette, both from the top of the axis downwards. */
interface Mass {
  readonly inner: readonly Point[]
  readonly outer: readonly Point[]
  /** Radius of a curl, mm. */
  readonly curl: number
  readonly count: number
}

function massOf(scene: Scene): Mass {
  const { headBreadth, skullAboveEyes: up, chinBelowEyes: down } = scene.look.proportions
  const half = headBreadth / 2
  if (scene.look.hair === 'afro') {
    const [rx, ry, middle] = [half + 33, up * 0.62 + 47, -0.36 * up]
    const outer = Array.from({ length: 20 }, (_, step) => (step / 19) * 0.76).map(
      (turn): Point => [Math.sin(turn * Math.PI) * rx, middle - Math.cos(turn * Math.PI) * ry],
    )
    const inner: Point[] = [
      [0, -0.68 * up],
      [0.42 * half, -0.655 * up],
      [0.72 * half, -0.52 * up],
      [0.87 * half, -0.24 * up],
      [0.95 * half, 0.06 * down],
      [0.97 * half, 0.26 * down],
    ]
    return { inner, outer, curl: 2.6, count: 1250 }
  }
  const outer: Point[] = [
    [0, -up - 19],
    [0.5 * half, -up - 14],
    [0.95 * half, -0.86 * up],
    [half + 21, -0.4 * up],
    [half + 29, 0.1 * down],
    [half + 33, 0.55 * down],
    [half + 29, 0.95 * down],
    [half + 15, 1.24 * down],
    [0.78 * half, 1.3 * down],
  ]
  const inner: Point[] = [
    [0, -0.7 * up],
    [0.4 * half, -0.66 * up],
    [0.78 * half, -0.42 * up],
    [0.92 * half, -0.1 * up],
    [0.95 * half, 0.3 * down],
    [0.88 * half, 0.7 * down],
    [0.76 * half, 1 * down],
    [0.7 * half, 1.14 * down],
    [0.7 * half, 1.2 * down],
  ]
  return { inner, outer: smoothly(outer), curl: 4.2, count: 1900 }
}

/** Points between the given ones on a curve, so that curls along the edge don't trace corners. */
function smoothly(points: readonly Point[]): Point[] {
  return resampled(points, 40).map(([x, y], index, all): Point => {
    const [before, after] = [
      all[Math.max(0, index - 2)] ?? [x, y],
      all[Math.min(all.length - 1, index + 2)] ?? [x, y],
    ]
    return index === 0 ? [x, y] : [(before[0] + 2 * x + after[0]) / 4, (before[1] + 2 * y + after[1]) / 4]
  })
}

export function curls(scene: Scene): { behind: string; over: string; silhouette: readonly Point[] } {
  const mass = massOf(scene)
  const { palette, random } = scene
  const flip = (points: readonly Point[], side: number): Point[] => points.map(([x, y]) => [side * x, y])
  const foot = mass.outer[mass.outer.length - 1] ?? [0, 0]
  const behind = smooth([...flip(mass.outer, -1).reverse(), ...mass.outer.slice(1)])
  const body = [-1, 1]
    .map(
      (side) =>
        `${smooth(flip(mass.outer, side))}${smooth(flip([...mass.inner].reverse(), side)).replace('M', 'L')}Z`,
    )
    .join('')
  // Small curls along the edge keep the silhouette soft without a clean contour.
  const rim = Array.from({ length: 280 }, () => {
    const [x, y] = along(mass.outer, random.next())
    const side = random.next() < 0.5 ? -1 : 1
    return `M${mm(side * x)} ${mm(y)}m-${mm(mass.curl)} 0a${mm(mass.curl)} ${mm(mass.curl * 0.8)} 0 1 0 ${mm(mass.curl * 2)} 0a${mm(mass.curl)} ${mm(mass.curl * 0.8)} 0 1 0 -${mm(mass.curl * 2)} 0`
  }).join('')
  return {
    behind: blurred(
      0.5,
      fill(
        `${behind}L${mm(foot[0] * 0.6)} ${mm(foot[1])}L${mm(-foot[0] * 0.6)} ${mm(foot[1])}Z`,
        palette.hairDark,
      ),
    ),
    over:
      blurred(0.5, fill(body, palette.hairDark)) + crisp(fill(rim, palette.hairDark)) + coils(scene, mass),
    silhouette: mass.outer,
  }
}

function coils({ palette, random, key }: Scene, mass: Mass): string {
  return Array.from({ length: mass.count }, () => {
    const down = random.next()
    const out = random.next()
    const side = random.next() < 0.5 ? -1 : 1
    const [ix, iy] = along(mass.inner, down)
    const [ox, oy] = along(mass.outer, down)
    const [x, y] = [side * (ix + (ox - ix) * out), iy + (oy - iy) * out]
    const size = mass.curl * random.between(0.55, 1.2)
    const turn = random.between(0, Math.PI * 2)
    const [dx, dy] = [Math.cos(turn) * size, Math.sin(turn) * size]
    const lit = side === key || out > 0.6 ? 0.85 : 0.5
    return crisp(
      line(
        `M${mm(x - dx)} ${mm(y - dy)}a${mm(size)} ${mm(size * 0.8)} ${mm((turn * 180) / Math.PI)} 0 1 ${mm(2 * dx)} ${mm(2 * dy)}`,
        strandColor(palette, random),
        random.between(0.5, 1.5),
        lit * random.between(0.5, 1),
      ),
    )
  }).join('')
}
