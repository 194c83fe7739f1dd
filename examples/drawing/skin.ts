import { toCss } from './color.ts'
import { headOutline } from './head-outline.ts'
import { mm } from './path.ts'
import { blurred, bothSides, curve, ellipse, line, type Scene, together } from './scene.ts'

/**
 * The head's skin with its large forms: forehead, sockets, cheeks, jaw. Features come on top. Both cheeks are painted
 * alike, so that the key light alone makes their difference.
 */
export function skin(scene: Scene): string {
  const { palette, look, key } = scene
  const shape = look.proportions
  const outline = headOutline(shape)
  const half = shape.headBreadth / 2
  const down = shape.chinBelowEyes
  const up = shape.skullAboveEyes
  const glow = 0.3 + 0.28 * palette.depth
  const { skinLight: light, skinShadow: shadow, skinDeep: deep } = palette
  const underJaw = curve(
    [-half * 0.85, down * 0.66],
    [-half * 0.4, down * 1.0],
    [0, down * 1.06],
    [half * 0.4, down * 1.0],
    [half * 0.85, down * 0.66],
  )
  return [
    `<radialGradient id="skin" gradientUnits="userSpaceOnUse" cx="0" cy="2" r="${mm(half * 1.8)}">`,
    `<stop offset="0" stop-color="${toCss(palette.skin)}"/><stop offset="0.42" stop-color="${toCss(palette.skin)}"/>`,
    `<stop offset="1" stop-color="${toCss(shadow)}"/></radialGradient>`,
    `<clipPath id="head"><path d="${outline}"/></clipPath>`,
    `<path d="${outline}" fill="url(#skin)"/><g clip-path="url(#head)">`,
    // The form turns away from the light along its edge.
    blurred(9, line(outline, shadow, 16, 0.8)),
    blurred(5, line(underJaw, deep, 10, 0.4)),
    blurred(
      10,
      ellipse([key * 8, -0.54 * up], [half * 0.42, 13], light, glow + 0.16),
      bothSides((side) =>
        together(
          ellipse([side * 42, 27], [13, 8], light, glow * 1.2, side * -28),
          ellipse([side * half * 0.92, -34], [8, 26], shadow, 0.34),
          ellipse([side * half * 0.7, 64], [7, 24], shadow, 0.5, side * 26),
          ellipse([side * 46, 40], [15, 9], palette.blush, 0.62, side * -24),
        ),
      ),
    ),
    blurred(6, ellipse([0, down - 14], [11, 6], light, glow + 0.06)),
    // Eye sockets: darkest between the brow and the inner corner.
    blurred(
      4,
      bothSides((side) =>
        together(
          ellipse([side * 32, -8.5], [17, 5.5], shadow, 0.62),
          ellipse([side * 15.5, -6], [4.5, 8], deep, 0.42),
          line(curve([side * 18, -27.5], [side * 34, -31.5], [side * 50, -27]), light, 4, 0.34),
        ),
      ),
    ),
    blurred(
      2,
      bothSides((side) =>
        together(
          line(
            curve([side * 19, 9], [side * 29, 13.5], [side * 42, 11.5]),
            shadow,
            2.4,
            0.4 + 0.3 * shape.lines,
          ),
          line(curve([side * 22, 16], [side * 32, 19], [side * 44, 15.5]), light, 3.6, 0.34),
        ),
      ),
    ),
    wrinkles(scene),
    '</g>',
  ].join('')
}

/** Lines that come with age and expression; faint on the young. */
function wrinkles({ palette, look }: Scene): string {
  const { lines, noseWidth, mouthWidth } = look.proportions
  const nose = noseWidth / 2
  const folds = bothSides((side) =>
    line(
      curve([side * (nose + 2), 41], [side * (nose + 8.5), 50], [side * (mouthWidth / 2 + 7), 67]),
      palette.skinDeep,
      2,
      0.16 + 0.5 * lines,
    ),
  )
  const soft = blurred(1.6, folds)
  if (lines < 0.35) return soft
  const forehead = [-46, -55, -64].map((y, row) =>
    line(
      curve([-30 + row * 3, y + 2], [-12, y], [12, y - 0.5], [31 - row * 3, y + 2]),
      palette.skinDeep,
      1.2,
      lines * 0.36,
    ),
  )
  const feet = bothSides((side) =>
    together(
      ...[-5, 0, 5].map((y) =>
        line(
          curve([side * 51, y * 0.5], [side * 56, y], [side * 61, y * 1.7]),
          palette.skinDeep,
          1,
          lines * 0.5,
        ),
      ),
    ),
  )
  return soft + blurred(0.8, ...forehead, feet)
}

/** Light on a bare scalp. */
export function scalpShine({ palette, look, key }: Scene): string {
  const up = look.proportions.skullAboveEyes
  const half = look.proportions.headBreadth / 2
  return blurred(
    7,
    ellipse([key * half * 0.4, -0.76 * up], [half * 0.24, 5], palette.skinLight, 0.75, key * 32),
  )
}
