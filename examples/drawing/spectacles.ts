import { type Point, smooth } from './path.ts'
import {
  blurred,
  bothSides,
  crisp,
  curve,
  ellipse,
  fill,
  line,
  type Mark,
  type Scene,
  together,
} from './scene.ts'

/** Rim outline of the right lens. */
const LENS: readonly Point[] = [
  [10, -8],
  [16, -16],
  [34, -18.5],
  [54, -16.5],
  [59, -9],
  [57, 8],
  [49, 20],
  [33, 23],
  [17, 18],
  [11, 6],
]

export function spectacles({ look, palette, key, lensGlare }: Scene): string {
  if (look.spectacles === 'none') return ''
  const thick = look.spectacles === 'thick'
  const rim = thick ? 3.4 : 1.25
  const color = thick ? ([44, 30, 26] as const) : ([92, 86, 84] as const)
  const edge = look.proportions.headBreadth / 2
  const lens = (side: number): string =>
    smooth(
      LENS.map(([x, y]): Point => [side * x, y]),
      true,
    )
  return [
    // Frames throw a faint shadow on the skin below them.
    `<g transform="translate(${-key} 2.2)">${blurred(
      1,
      bothSides((side) => line(lens(side), palette.skinDeep, rim, 0.34)),
    )}</g>`,
    crisp(
      bothSides((side) =>
        together(
          fill(lens(side), [225, 236, 245], 0.05),
          line(curve([side * 57, -11], [side * (edge - 6), -9], [side * (edge + 1), -6]), color, rim * 1.05),
          line(lens(side), color, rim),
          line(lens(side), [255, 255, 255], rim * 0.22, 0.28),
        ),
      ),
      line(curve([-11, -5], [-5, -9], [5, -9], [11, -5]), color, rim),
    ),
    lensGlare > 0
      ? blurred(
          0.5,
          bothSides((side) => glare(side, lensGlare, key)),
        )
      : '',
  ].join('')
}

/** A light reflected by the lens; its area is `share` of a lens of about 1720 square millimetres. */
function glare(side: -1 | 1, share: number, key: -1 | 1): Mark {
  const radius = Math.sqrt((share * 1720) / Math.PI / 1.3)
  return ellipse([side * 33 + key * 2, -1], [radius * 1.3, radius], [255, 255, 255], 0.97, key * 18)
}
