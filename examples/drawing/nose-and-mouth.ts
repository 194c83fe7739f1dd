import { mix, type Rgb } from './color.ts'
import { blurred, bothSides, curve, ellipse, fill, line, type Scene } from './scene.ts'

export function nose({ palette, look, key }: Scene): string {
  const half = look.proportions.noseWidth / 2
  const glow = 0.36 + 0.22 * palette.depth
  const dark = palette.skinDeep
  return [
    blurred(
      4,
      line(curve([-key * 10, -8], [-key * 8, 8], [-key * (half - 5), 30]), palette.skinShadow, 7, 0.62),
      line(curve([key * 10, -10], [key * 9.5, 8], [key * (half - 4), 30]), palette.skinShadow, 5, 0.3),
      ellipse([0, 51.5], [half * 0.8, 4], palette.skinDeep, 0.4),
    ),
    blurred(
      2,
      line(curve([key * 0.8, -8], [key * 1, 12], [key * 0.8, 29]), palette.skinLight, 5, glow),
      ellipse([key * 1.6, 36.5], [5.6, 5], palette.skinLight, glow + 0.12),
    ),
    blurred(1, ellipse([key * 2.2, 35.5], [2.2, 2], mix(palette.skinLight, [255, 255, 255], 0.5), 0.5)),
    // Wings and the crease behind them.
    blurred(
      1,
      bothSides((side) =>
        line(
          curve(
            [side * (half - 3.4), 31.5],
            [side * (half - 0.2), 36],
            [side * half, 42],
            [side * (half - 4), 46.6],
          ),
          dark,
          1.7,
          side === key ? 0.42 : 0.58,
        ),
      ),
      line(
        curve(
          [-half + 4.5, 46.4],
          [-8, 47.2],
          [-3.4, 49.4],
          [0, 50],
          [3.4, 49.4],
          [8, 47.2],
          [half - 4.5, 46.4],
        ),
        dark,
        1.5,
        0.5,
      ),
    ),
    blurred(
      0.5,
      bothSides((side) =>
        ellipse([side * half * 0.48, 46], [half * 0.235, 1.75], [34, 16, 14], 0.78, side * -14),
      ),
    ),
    blurred(
      2,
      bothSides((side) => line(curve([side * 2.6, 53], [side * 3.4, 60]), palette.skinLight, 1.8, 0.3)),
      line(curve([0, 53], [0, 60]), palette.skinShadow, 2.6, 0.42),
    ),
  ].join('')
}

export function mouth({ palette, look, key, moment }: Scene): string {
  const { smile, mouthOpen } = moment
  // A smile of 5 mm widens the mouth by about an eighth.
  const half = (look.proportions.mouthWidth / 2) * (1 + 0.025 * smile)
  const full = 0.75 + 0.5 * look.proportions.lips
  const y = 70
  const corner = y - 1.4 - smile
  const seam = curve(
    [-half, corner],
    [-half * 0.6, y + 0.4],
    [-half * 0.22, y + 1.1],
    [0, y + 1.7],
    [half * 0.22, y + 1.1],
    [half * 0.6, y + 0.4],
    [half, corner],
  )
  const upper = `M${-half} ${corner}${curve([-half, corner], [-half * 0.55, y - 4 * full], [-4.4, y - 6.8 * full], [0, y - 5.3 * full], [4.4, y - 6.8 * full], [half * 0.55, y - 4 * full], [half, corner]).replace('M', 'L')}${curve([half, corner], [half * 0.6, y + 0.4], [0, y + 1.7], [-half * 0.6, y + 0.4], [-half, corner]).replace('M', 'L')}Z`
  const lowest = y + 10.4 * full
  const lower = `${curve([-half, corner], [-half * 0.6, y + 0.2], [0, y + 1.5], [half * 0.6, y + 0.2], [half, corner])}${curve([half, corner], [half * 0.68, y + 6 * full], [half * 0.32, lowest - 0.4], [0, lowest], [-half * 0.32, lowest - 0.4], [-half * 0.68, y + 6 * full], [-half, corner]).replace('M', 'L')}Z`
  const seamColor: Rgb = mix(palette.lipsDark, [40, 12, 12], 0.55)
  return [
    blurred(0.5, fill(upper, mix(palette.lips, palette.lipsDark, 0.28)), fill(lower, palette.lips)),
    blurred(
      2,
      line(
        curve([-half * 0.5, y + 6 * full], [0, y + 7.4 * full], [half * 0.5, y + 6 * full]),
        palette.lipsLight,
        3.2 * full,
        0.42 + 0.2 * palette.depth,
      ),
      ellipse([key * 4, y + 5.4 * full], [4, 1.3], [255, 246, 240], 0.3 + 0.15 * palette.depth),
    ),
    blurred(
      1,
      line(
        curve(
          [-half * 0.7, y + 8 * full],
          [-half * 0.3, lowest + 0.5],
          [half * 0.3, lowest + 0.5],
          [half * 0.7, y + 8 * full],
        ),
        palette.skinDeep,
        1.6,
        0.3,
      ),
    ),
    blurred(
      0.5,
      line(seam, seamColor, 1.25, 0.9),
      bothSides((side) => ellipse([side * (half + 0.4), corner - 0.1], [1.7, 1.2], seamColor, 0.6)),
    ),
    mouthOpen > 0 ? gap(half * 0.86, y - smile * 0.4, mouthOpen) : '',
    // The hollow between lip and chin, and the light along the upper lip's edge.
    blurred(
      4,
      ellipse([0, lowest + 6], [half * 0.62, 3.4], palette.skinShadow, 0.62),
      bothSides((side) => ellipse([side * (half + 5), y], [3, 5], palette.skinShadow, 0.42)),
    ),
    blurred(
      0.5,
      line(
        curve(
          [-half * 0.5, y - 5.2 * full],
          [-4.4, y - 7.6 * full],
          [0, y - 6.2 * full],
          [4.4, y - 7.6 * full],
          [half * 0.5, y - 5.2 * full],
        ),
        palette.skinLight,
        0.9,
        0.4,
      ),
    ),
  ].join('')
}

/** The dark between parted lips, with the upper teeth in it. */
function gap(half: number, y: number, open: number): string {
  const lens = (low: number): string =>
    `${curve([-half, y], [-half * 0.5, y + 1.2], [0, y + 1.6], [half * 0.5, y + 1.2], [half, y])}${curve([half, y], [half * 0.5, y + 1 + low * 0.8], [0, y + 1.6 + low], [-half * 0.5, y + 1 + low * 0.8], [-half, y]).replace('M', 'L')}Z`
  return blurred(0.5, fill(lens(open), [58, 22, 22]), fill(lens(open * 0.6), [232, 226, 214]))
}
