import type { Face, Head } from '../../src/measure/schema/measurements.ts'

/** The measures that tell their error, and what each is in. */
export const MEASURES = {
  crown: 'crown, % of the frame height',
  eyeLine: 'eye line, % of the frame height',
  chin: 'chin, % of the frame height',
  headHeight: 'head height, % of the frame height',
  offCenter: 'centering, % of the frame width',
  tilt: 'tilt, degrees',
  turn: 'turn, degrees',
  nod: 'nod, degrees',
} as const
export type Measure = keyof typeof MEASURES

/** What is known of a picture, each in the unit of its measure; absent where it is not known. */
export type Truths = Readonly<Partial<Record<Measure, number>>>

/** How far a reading is off. */
export interface Compared {
  readonly measure: Measure
  /** Measured less true. */
  readonly error: number
  /** The error that the measurement tells: 95 of 100 are to be within it. */
  readonly told: number
}

/** Holds what was measured against what is known; what was not measured is left out. */
export function compared(head: Head | null, face: Face | null, truths: Truths): Compared[] {
  const read: Record<Measure, readonly [value: number | null | undefined, told: number | null | undefined]> =
    {
      crown: [head?.headroomPct, head?.crownErrorPct],
      eyeLine: [head?.eyeLinePct, head?.eyeLineErrorPct],
      chin: [head?.chin && 100 * head.chin.y, head?.chinErrorPct],
      headHeight: [head?.headHeightPct, head?.headHeightErrorPct],
      offCenter: [head?.offCenterPct, head?.offCenterErrorPct],
      tilt: [face?.tiltDeg, face?.tiltErrorDeg],
      turn: [face?.turnDeg, face?.turnErrorDeg],
      nod: [face?.nodDeg, face?.nodErrorDeg],
    }
  return (Object.keys(MEASURES) as Measure[]).flatMap((measure) => {
    const [value, told] = read[measure]
    const truth = truths[measure]
    if (value == null || told == null || truth === undefined) return []
    return [{ measure, error: value - truth, told }]
  })
}

/** As head height is defined: along the axis of the face, projected onto the vertical, px. @param lean radians, positive clockwise */
export function headHeightOf(
  crown: readonly [x: number, y: number],
  chin: readonly [x: number, y: number],
  lean: number,
): number {
  return ((chin[1] - crown[1]) * Math.cos(lean) - (chin[0] - crown[0]) * Math.sin(lean)) * Math.cos(lean)
}
