import type { IrisCenter } from './networks/iris-model.ts'

const DEGREES = 180 / Math.PI

/** Angle of the line through the iris centers in degrees, positive clockwise in the frame. */
export function eyeTiltDeg([left, right]: readonly [IrisCenter, IrisCenter]): number {
  return Math.atan2(right[1] - left[1], right[0] - left[0]) * DEGREES
}
