/**
 * Error of the middle of the irises up or down: a share of their distance, and px of the picture searched; and how much of it they are off to
 * the sides.
 * @tuned on 51 published photographs, on smaller copies of them, with 60 and 30 px between the eyes, and on drawn sitters with 44 to 150 px: 93 to 100 of 100
 *   marks are within it in each; where the irises are not seen, on those of them behind thick rims and reflections.
 */
const EYES = { seen: 0.007, unseen: 0.03, px: 0.4, toTheSides: 0.85 } as const

/**
 * Error of the tilt, degrees, and how much higher one iris may be seen, px of the picture searched.
 * @tuned on the same pictures, and on photographs turned by 10°: smaller faces are hardly read worse.
 */
const TILT_DEG = { seen: 0.6, unseen: 2, px: 0.3 } as const

/**
 * Error of turn and nod of a face that looks ahead, degrees.
 * @tuned on 51 studio portraits of people told to look ahead. What nose, ears and jaw, marked by others, do not explain of the
 *   readings scatters by 1.2° of turn and 3.0° of nod (one standard deviation, each portrait left out of the fit, whose own noise is a tenth of it);
 *   25 photographs are within 4° of the published canonical face.
 */
const AHEAD_DEG = { turn: 3.5, nod: 5.5 } as const

/**
 * How much too small large angles may be read, share of the angle.
 * @tuned on 25 photographs against the published canonical face: up to a sixth. Drawn heads rotated by 30° read a quarter too small,
 *   since their hair stays behind.
 */
const READS_LOW = 1 / 6

const DEGREES = 180 / Math.PI

/** How far the middle of the irises may be off, px of the picture searched: 95 of 100 are within it. */
export interface EyesError {
  readonly across: number
  readonly down: number
}

/** @param apart distance of the irises, px of the picture searched @param seen whether they were read in the picture or are where the mesh has them */
export function eyesError(apart: number, seen: boolean): EyesError {
  const down = (seen ? EYES.seen : EYES.unseen) * apart + EYES.px
  return { across: EYES.toTheSides * down, down }
}

/** How far the tilt may be off to either side, degrees: 95 of 100 are within it. @param apart and seen as for `eyesError` */
export function tiltErrorDeg(apart: number, seen: boolean): number {
  return (seen ? TILT_DEG.seen : TILT_DEG.unseen) + DEGREES * Math.atan(TILT_DEG.px / apart)
}

/** How far a turn or a nod may be off to either side, degrees: 95 of 100 are within it. */
export function angleErrorDeg(angle: keyof typeof AHEAD_DEG, deg: number): number {
  return Math.hypot(AHEAD_DEG[angle], READS_LOW * deg)
}
