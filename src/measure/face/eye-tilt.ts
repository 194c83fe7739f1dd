import type { Place } from './irises/mesh-eyes.ts'

const DEGREES = 180 / Math.PI

/** Angle of the line through the iris centers in degrees, positive clockwise in the frame. */
export function eyeTiltDeg([left, right]: readonly [Place, Place]): number {
  return Math.atan2(right[1] - left[1], right[0] - left[0]) * DEGREES
}
