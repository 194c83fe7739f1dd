import { along, mm, type Point } from './path.ts'
import { blurred, crisp, curve, line, type Scene } from './scene.ts'

/** Eyebrows of single hairs that lie outwards. */
export function brows({ palette, look, random }: Scene): string {
  const weight = look.proportions.brows
  const spine: Point[] = [
    [13, -16],
    [22, -19.2],
    [32, -21],
    [42, -19.4],
    [50.5, -14],
  ]
  return ([-1, 1] as const)
    .map((side) => {
      const hairs = Array.from({ length: 90 }, () => {
        const share = random.next()
        const [x, y] = along(spine, share)
        const thick = (2.3 + 2.6 * weight) * (share < 0.75 ? 1 : (1.05 - share) * 3.3)
        const top = y + random.between(-0.5, 0.5) * thick
        const lie = random.between(2.6, 5)
        const rise = share < 0.35 ? -2.4 : share < 0.6 ? -0.8 : 1.2
        return `M${mm(side * x)} ${mm(top)}Q${mm(side * (x + lie * 0.5))} ${mm(top + rise * 0.8)} ${mm(side * (x + lie))} ${mm(top + rise)}`
      }).join('')
      const body = curve(...spine.map(([x, y]): Point => [side * (x + 1), y - 0.3]))
      return (
        blurred(1, line(body, palette.brow, 2.4 + 2.2 * weight, 0.6)) +
        crisp(line(hairs, palette.brow, 0.5, 0.72))
      )
    })
    .join('')
}
