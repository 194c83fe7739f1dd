/**
 * Error of the middle of the irises, to any side: a share of their distance, and px of the picture searched.
 * @tuned first values
 */
const EYES = { share: 0.012, px: 0.2 } as const

/** Error of the tilt: degrees, and px of the picture searched by which one iris may lie higher than the other. @tuned first values */
const TILT = { deg: 0.7, px: 0.4 } as const

/** Error of turn and nod of a face that looks ahead, degrees. @tuned first values */
const AHEAD_DEG = { turn: 5, nod: 6 } as const

/** How much too small large angles may be read, share of the angle. @tuned first values */
const READS_LOW = 1 / 6

const DEGREES = 180 / Math.PI

/** How far the middle of the irises may be off to any side, px of the picture searched: 95 of 100 are within it. @param apart distance of the irises, px */
export function eyesError(apart: number): number {
  return EYES.share * apart + EYES.px
}

/** The same of the tilt, degrees. @param apart distance of the irises, px */
export function tiltErrorDeg(apart: number): number {
  return TILT.deg + DEGREES * Math.atan(TILT.px / apart)
}

/** The same of a turn or a nod, degrees. */
export function angleErrorDeg(angle: keyof typeof AHEAD_DEG, deg: number): number {
  return Math.hypot(AHEAD_DEG[angle], READS_LOW * deg)
}
