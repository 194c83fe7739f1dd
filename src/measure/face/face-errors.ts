/**
 * Error of the middle of the irises, to any side: a share of their distance, and px of the picture searched.
 * @tuned on 51 published photographs, whose marks are within 1.1 % of the distance in 95 of 100, and on smaller copies of them.
 */
const EYES = { share: 0.011, px: 0.15 } as const

/**
 * Error of the tilt, degrees, and how much higher one iris may be seen, px of the picture searched.
 * @tuned on the same photographs, whose marks are within 0.63° in 95 of 100.
 */
const TILT = { deg: 0.6, px: 0.3 } as const

/**
 * Error of turn and nod of a face that looks ahead, degrees.
 * @tuned on 51 studio portraits of people told to look ahead: turns scatter by 2.4° (one standard deviation), nods by 5°, of which the
 *   height of the ears, marked by others, tells about 4° to be real; what is left is 3°. 25 photographs are within 4° of the published
 *   canonical face.
 */
const AHEAD_DEG = { turn: 5, nod: 6 } as const

/**
 * How much too small large angles may be read, share of the angle.
 * @tuned on 25 photographs against the published canonical face: up to a sixth. Drawn heads rotated by 30° read a quarter too small,
 *   since their hair stays behind.
 */
const READS_LOW = 1 / 6

const DEGREES = 180 / Math.PI

/** How far the middle of the irises may be off to any side, px of the picture searched: 95 of 100 are within it. @param apart distance of the irises, px */
export function eyesError(apart: number): number {
  return EYES.share * apart + EYES.px
}

/** How far the tilt may be off to either side, degrees: 95 of 100 are within it. @param apart distance of the irises, px */
export function tiltErrorDeg(apart: number): number {
  return TILT.deg + DEGREES * Math.atan(TILT.px / apart)
}

/** How far a turn or a nod may be off to either side, degrees: 95 of 100 are within it. */
export function angleErrorDeg(angle: keyof typeof AHEAD_DEG, deg: number): number {
  return Math.hypot(AHEAD_DEG[angle], READS_LOW * deg)
}
