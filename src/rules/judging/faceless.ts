import type { Measurements } from '../../measure/schema/measurements.ts'

/** Whether a picture was searched for faces and nothing was found that looks like one. */
export function isFaceless({ face }: Pick<Measurements, 'face'>): boolean {
  return face !== null && face !== undefined && face.count === 0
}
