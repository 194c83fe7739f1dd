import { filtered, fromHex, mix, type Rgb } from './color.ts'
import { type HairColor, type Look, MONK_TONES } from './look.ts'

/** The colors one sitter is painted with. */
export interface Palette {
  readonly skin: Rgb
  readonly skinLight: Rgb
  readonly skinShadow: Rgb
  readonly skinDeep: Rgb
  readonly blush: Rgb
  readonly lips: Rgb
  readonly lipsDark: Rgb
  readonly lipsLight: Rgb
  readonly hair: Rgb
  readonly hairLight: Rgb
  readonly hairDark: Rgb
  readonly brow: Rgb
  readonly lash: Rgb
  /** 0 for the lightest skin, 1 for the darkest: darker skin needs stronger highlights to read. */
  readonly depth: number
}

const HAIR: Record<HairColor, string> = {
  black: '#211d1f',
  brown: '#4a3323',
  auburn: '#63301d',
  red: '#9c5128',
  blond: '#bf9a5f',
  gray: '#8f8d8b',
  white: '#dcdad6',
}

export function paletteOf(look: Look): Palette {
  const depth = look.tone / (MONK_TONES.length - 1)
  const tone = fromHex(MONK_TONES[look.tone] ?? MONK_TONES[4])
  // The scale's swatches are skin at its lightest; lit form needs room above it on light skin and below it on dark.
  const skin = mix(filtered(tone, [0.955, 0.9, 0.865]), mix(tone, [186, 132, 100], 0.27), depth)
  const skinShadow = filtered(skin, [0.78 - 0.1 * depth, 0.65 - 0.04 * depth, 0.58 + 0.04 * depth])
  const hair = fromHex(HAIR[look.hairColor])
  const rose: Rgb = look.makeup ? [168, 48, 62] : [190, 104, 98]
  const lips = mix(filtered(skin, [0.92, 0.74, 0.72]), rose, 0.5 - 0.28 * depth)
  const pale = look.hairColor === 'white' || look.hairColor === 'gray' || look.hairColor === 'blond'
  return {
    skin,
    skinLight: mix(skin, [255, 244, 230], 0.42 - 0.14 * depth),
    skinShadow,
    skinDeep: filtered(skinShadow, [0.62, 0.5, 0.46]),
    blush: mix(skin, [206, 92, 84], 0.42 - 0.2 * depth),
    lips,
    lipsDark: filtered(lips, [0.62, 0.5, 0.5]),
    lipsLight: mix(lips, [255, 250, 242], 0.32),
    hair,
    hairLight: mix(hair, look.hairColor === 'black' ? [150, 150, 162] : [255, 238, 210], 0.36),
    hairDark: filtered(hair, [0.52, 0.5, 0.5]),
    brow: pale
      ? filtered(mix(hair, [120, 96, 74], 0.55), [0.78, 0.76, 0.74])
      : filtered(hair, [0.86, 0.84, 0.84]),
    lash: [26, 19, 18],
    depth,
  }
}
