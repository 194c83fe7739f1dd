import type { Lab } from '../../color/lab.ts'

/*
 * Where the color of skin lies in CIELAB, in every tone. Melanin takes lightness and hue along one curve, blood and yellowness vary about
 * it: dark skin has little chroma, tan skin the most, pale skin less again (Xiao et al., Skin Research and Technology 23(1), 2017;
 * CIE x050-OP065, 2023, 12,355 patches). What lies off the curve is a cast, however light or dark the skin.
 */

/**
 * Typical a* and b* of skin by its lightness, c0 + c1 L* + c2 L*^2, in studio light.
 * @tuned on 51 portraits in one light, L* 24 to 74. Fitted to half of them, a* of the other half is 1.5 off and b* 3.0 (one standard
 *   deviation), at most 3.9 and 8.2
 */
const CURVE = {
  a: [-8.94, 0.807, -0.00738],
  b: [-14.24, 1.207, -0.01223],
} as const

/** Lightnesses that the curve is known for; beyond them it stays as at the end. @tuned on the same portraits */
const KNOWN = { from: 24, to: 76 } as const

/** How far people's skin lies off the curve, one standard deviation. @tuned on the same portraits, rounded up */
export const SKIN_SPREAD = { a: 1.6, b: 3.2 } as const

/**
 * How much less the curve is known for each L* beyond its ends, of a* or b*.
 * @choice its slope there, which may or may not go on
 */
const UNKNOWN_PER_L = 0.3

/**
 * Hues of skin, degrees.
 * @tuned on 51 portraits in one light, whose skin is 26 to 60°, and 60 photographs in white light, 36 to 64°; widened by three standard
 *   deviations of the former (8°) to the yellow, and by one and a half to the pink. Published means are 28 to 48° for nose and lips (a shade
 *   guide from 120 people, IADR 2009) and about 50 to 65° for cheeks of four peoples (Xiao et al. 2017, from memory).
 */
export const SKIN_HUE_DEG = { min: 15, max: 85 } as const

/** How far a color of skin lies off the curve. @returns a* positive toward red, b* toward yellow, and one standard deviation of the curve itself */
export function skinCastOf({ L, a, b }: Lab): {
  readonly a: number
  readonly b: number
  readonly error: number
} {
  const known = Math.min(KNOWN.to, Math.max(KNOWN.from, L))
  const typical = (axis: keyof typeof CURVE) =>
    CURVE[axis].reduce((sum, c, power) => sum + c * known ** power, 0)
  return { a: a - typical('a'), b: b - typical('b'), error: UNKNOWN_PER_L * Math.abs(L - known) }
}
