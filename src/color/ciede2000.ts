import type { Lab } from './lab.ts'

const RADIANS = Math.PI / 180
/** Constant of the chroma terms. @source CIE 142-2001 / ISO 11664-6, equations (4) and (17) as numbered below. */
const TWENTY_FIVE_TO_7 = 25 ** 7

/**
 * CIEDE2000 color difference, kL = kC = kH = 1.
 * @source CIE 142-2001 / ISO 11664-6; written after G. Sharma, W. Wu, E. N. Dalal, "The CIEDE2000 color-difference
 * formula: implementation notes, supplementary test data, and mathematical observations", Color Research &
 * Application 30(1):21-30 (2005); the numbers of its equations stand at the right.
 */
export function deltaE00(first: Lab, second: Lab): number {
  const meanC = (Math.hypot(first.a, first.b) + Math.hypot(second.a, second.b)) / 2 // (3)
  const stretch = 1.5 - 0.5 * Math.sqrt(meanC ** 7 / (meanC ** 7 + TWENTY_FIVE_TO_7)) // 1 + G, (4)
  const a1 = stretch * first.a // (5)
  const a2 = stretch * second.a
  const C1 = Math.hypot(a1, first.b) // (6)
  const C2 = Math.hypot(a2, second.b)
  const h1 = hueDeg(a1, first.b) // (7)
  const h2 = hueDeg(a2, second.b)

  const deltaL = second.L - first.L // (8)
  const deltaC = C2 - C1 // (9)
  const gray = C1 * C2 === 0
  const turn = gray ? 0 : shortestTurn(h2 - h1) // (10)
  const deltaH = 2 * Math.sqrt(C1 * C2) * Math.sin((turn / 2) * RADIANS) // (11)

  const L = (first.L + second.L) / 2 // (12)
  const C = (C1 + C2) / 2 // (13)
  const h = gray ? h1 + h2 : meanHue(h1, h2) // (14)
  const T =
    1 -
    0.17 * Math.cos((h - 30) * RADIANS) +
    0.24 * Math.cos(2 * h * RADIANS) +
    0.32 * Math.cos((3 * h + 6) * RADIANS) -
    0.2 * Math.cos((4 * h - 63) * RADIANS) // (15)
  const deltaTheta = 30 * Math.exp(-(((h - 275) / 25) ** 2)) // (16)
  const RC = 2 * Math.sqrt(C ** 7 / (C ** 7 + TWENTY_FIVE_TO_7)) // (17)
  const SL = 1 + (0.015 * (L - 50) ** 2) / Math.sqrt(20 + (L - 50) ** 2) // (18)
  const SC = 1 + 0.045 * C // (19)
  const SH = 1 + 0.015 * C * T // (20)
  const RT = -Math.sin(2 * deltaTheta * RADIANS) * RC // (21)

  const l = deltaL / SL
  const c = deltaC / SC
  const d = deltaH / SH
  return Math.sqrt(l * l + c * c + d * d + RT * c * d) // (22)
}

/** Hue angle 0..360; 0 for gray. */
function hueDeg(a: number, b: number): number {
  if (a === 0 && b === 0) return 0
  const angle = Math.atan2(b, a) / RADIANS
  return angle < 0 ? angle + 360 : angle
}

/** The same turn, within -180..180. */
function shortestTurn(deg: number): number {
  if (deg > 180) return deg - 360
  return deg < -180 ? deg + 360 : deg
}

/** Middle of two hue angles on the shorter arc. */
function meanHue(h1: number, h2: number): number {
  const sum = h1 + h2
  if (Math.abs(h1 - h2) <= 180) return sum / 2
  return sum < 360 ? (sum + 360) / 2 : (sum - 360) / 2
}
