import { mm, type Point, smooth } from './path.ts'
import type { LensGlare } from './reflections.ts'
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

/** Of one lens, in square mm. */
const LENS_AREA = 1720

export function spectacles({ look, palette, key, reflections }: Scene): string {
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
    reflected(reflections.lensGlare, lens, key),
  ].join('')
}

/** The glare on each lens, cut off by its rim. */
function reflected(glare: LensGlare | null, lens: (side: number) => string, key: -1 | 1): string {
  if (glare === null || glare.share === 0) return ''
  const sides = ([-1, 1] as const).filter((side) => glare.on === 'both' || side < 0 === (glare.on === 'left'))
  return sides
    .map((side) => {
      const id = side < 0 ? 'lens-left' : 'lens-right'
      return `<clipPath id="${id}"><path d="${lens(side)}"/></clipPath><g clip-path="url(#${id})">${blurred(0.5, light(side, glare, key))}</g>`
    })
    .join('')
}

/** The light as the lens shows it; its area is `share` of the lens. */
function light(side: -1 | 1, { share, shape, at, color, opacity }: LensGlare, key: -1 | 1): Mark {
  const [x, y] = [side * (33 + at[0]) + key * 2, at[1] - 1]
  const area = share * LENS_AREA
  if (shape === 'umbrella') {
    const radius = Math.sqrt(area / Math.PI / 1.3)
    return ellipse([x, y], [radius * 1.3, radius], color, opacity, key * 18)
  }
  const [width, height] = shape === 'strip' ? [52, area / 52] : [Math.sqrt(area * 0.8), Math.sqrt(area / 0.8)]
  const [left, top] = [x - width / 2, y - height / 2]
  const lean = 0.12 * height
  const corners: Point[] = [
    [left + lean, top],
    [left + width + lean, top],
    [left + width - lean, top + height],
    [left - lean, top + height],
  ]
  return fill(`M${corners.map(([cx, cy]) => `${mm(cx)} ${mm(cy)}`).join('L')}Z`, color, opacity)
}
