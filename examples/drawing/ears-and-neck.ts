import { toCss } from './color.ts'
import { mm, type Point, smooth } from './path.ts'
import { blurred, bothSides, crisp, curve, ellipse, fill, line, type Scene } from './scene.ts'

export function ears({ palette, look }: Scene): string {
  const edge = look.proportions.headBreadth / 2 - 3
  const at = (points: readonly Point[], side: number): Point[] =>
    points.map(([x, y]) => [side * (edge + x), y])
  const outline: Point[] = [
    [-2, -10],
    [4, -15],
    [10, -13.5],
    [13, -5],
    [11.5, 8],
    [9, 20],
    [8, 30],
    [4, 38],
    [-2, 38],
  ]
  const helix: Point[] = [
    [1, -8],
    [5.5, -11],
    [9.4, -8],
    [9.8, 0],
    [8, 12],
  ]
  const bowl: Point[] = [
    [4, 4],
    [4.6, 9],
    [3, 18],
  ]
  return ([-1, 1] as const)
    .map((side) => {
      const shape = smooth(at(outline, side), true)
      return [
        `<clipPath id="ear${side}"><path d="${shape}"/></clipPath><g clip-path="url(#ear${side})">`,
        crisp(fill(shape, palette.skin)),
        blurred(2, line(smooth(at(outline.slice(3), side)), palette.skinShadow, 4, 0.5)),
        blurred(
          1.2,
          line(smooth(at(bowl, side)), palette.skinDeep, 3.4, 0.62),
          line(smooth(at(helix, side)), palette.skinDeep, 1.4, 0.5),
        ),
        blurred(
          1,
          line(
            smooth(
              at(
                [
                  [3, -13],
                  [9.5, -12],
                  [11.6, -4],
                  [10.4, 8],
                ],
                side,
              ),
            ),
            palette.skinLight,
            1.6,
            0.4,
          ),
        ),
        '</g>',
      ].join('')
    })
    .join('')
}

/** Neck and the skin an open collar shows; the head's shadow lies on it. */
export function neck({ palette, look, key }: Scene): string {
  const chin = look.proportions.chinBelowEyes
  const wide = 45 + 13 * look.proportions.jaw
  const outline = smooth(
    [
      [-wide - 2, 40],
      [-wide, chin],
      [-wide - 3, 152],
      [-wide - 12, 172],
      [-60, 260],
      [0, 300],
      [60, 260],
      [wide + 12, 172],
      [wide + 3, 152],
      [wide, chin],
      [wide + 2, 40],
    ],
    true,
  )
  return [
    `<linearGradient id="neck" gradientUnits="userSpaceOnUse" x1="${mm(-key * wide)}" y1="0" x2="${mm(key * wide)}" y2="0">`,
    `<stop offset="0" stop-color="${toCss(palette.skinShadow)}"/><stop offset="0.7" stop-color="${toCss(palette.skin)}"/><stop offset="1" stop-color="${toCss(palette.skinShadow)}"/></linearGradient>`,
    `<clipPath id="throat"><path d="${outline}"/></clipPath><path d="${outline}" fill="url(#neck)"/><g clip-path="url(#throat)">`,
    blurred(8, ellipse([-key * 6, chin - 2], [wide * 1.05, 30], palette.skinDeep, 0.86)),
    blurred(
      4,
      bothSides((side) =>
        line(
          curve([side * wide, chin - 10], [side * wide * 0.72, 150], [side * 12, 196]),
          palette.skinShadow,
          5,
          0.5,
        ),
      ),
      ellipse([0, 196], [9, 7], palette.skinDeep, 0.34),
    ),
    blurred(
      4,
      bothSides((side) =>
        line(curve([side * 18, 203], [side * 50, 200], [side * 90, 192]), palette.skinLight, 4, 0.3),
      ),
    ),
    blurred(4, line(outline, palette.skinDeep, 8, 0.4)),
    '</g>',
  ].join('')
}
