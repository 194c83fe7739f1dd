import type { EdgeReading } from '../../../kernels/circles.ts'

/**
 * Most that one direction counts, codes: a light beside the edge is steeper.
 * @tuned on 102 eyes of 51 photographs with published marks: 80 does as well, 40 is a third worse
 */
const STEEPEST = 60

/**
 * How the edge of an iris is read.
 * @param lean of the line of the eyes, radians, clockwise
 * @param angles from it, degrees
 * @param hidden how many of one side's directions may be hidden by lids, lashes and lights
 * @param beside how far from the edge both sides are read, cells
 */
export function edgeAcross(
  lean: number,
  angles: readonly number[],
  hidden: number,
  beside: number,
): EdgeReading {
  const turns = [0, Math.PI].flatMap((side) =>
    angles.map((angle) => lean + side + ((side === 0 ? 1 : -1) * angle * Math.PI) / 180),
  )
  const [us, vs] = [Float64Array.from(turns, Math.cos), Float64Array.from(turns, Math.sin)]
  return { us, vs, hidden, beside, steepest: STEEPEST }
}
