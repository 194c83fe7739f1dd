import type { LabPlanes } from '../color/lab.ts'

/** A picture in CIELAB. */
export interface LabPicture {
  readonly lab: LabPlanes
  readonly width: number
  readonly height: number
}
