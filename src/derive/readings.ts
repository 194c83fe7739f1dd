import { SURE } from '../measure/schema/confidence.ts'
import type { Doubt, Head, Measurements } from '../measure/schema/measurements.ts'

/** One number of a portrait, for a band to be proposed from. */
export interface Reading {
  /** Null where nothing of use is read. */
  readonly value: number | null
  /** Why there is no value, or what is doubtful about it; empty when it is sure. */
  readonly doubts: readonly Doubt[]
  /** How far the value may be off to either side, in its unit; 0 where its measurement does not say. */
  readonly error: number
}

export type Read = (measured: Measurements) => Reading

// Where the crown merges with the backdrop something is read all the same, and it is near more often than not. Other
// doubts (no plain backdrop, the head out of the frame) mean that nothing of use is read.
const NEAR: Doubt = 'crown-merges-with-backdrop'

/** A number of the head. With its crown in doubt it still is a reading, and told as doubtful. */
export function head(pick: 'headroomPct' | 'eyeLinePct' | 'headHeightPct'): Read {
  return ({ head: found }) => {
    if (!found) return nothing([])
    const { doubts } = found
    const isSure = found.confidence >= SURE
    const value = isSure || isNear(found) ? found[pick] : null
    if (value === null) return nothing(doubts)
    const error = pick === 'headHeightPct' ? (found.headHeightErrorPct ?? 0) : 0
    return { value, doubts: isSure ? [] : doubts, error }
  }
}

export function backdrop(pick: (found: NonNullable<Measurements['background']>) => number): Read {
  return ({ background }) =>
    background && background.confidence >= SURE ? sure(pick(background)) : nothing(background?.doubts ?? [])
}

/** The size of a number of the face, whatever its sign. */
export function face(pick: (measured: Measurements) => number | null | undefined): Read {
  return (measured) => {
    const value = measured.face && measured.face.confidence >= SURE ? pick(measured) : null
    return value == null ? nothing(measured.face?.doubts ?? []) : sure(Math.abs(value))
  }
}

/** The edge spread at the sharper eye. */
export const focus: Read = ({ finish }) => {
  const found = finish?.focus
  return found && found.confidence >= SURE && found.eyePx !== null
    ? sure(found.eyePx)
    : nothing(found?.doubts ?? [])
}

function isNear({ doubts }: Head): boolean {
  return doubts.length > 0 && doubts.every((doubt) => doubt === NEAR)
}

function sure(value: number): Reading {
  return { value, doubts: [], error: 0 }
}

function nothing(doubts: readonly Doubt[]): Reading {
  return { value: null, doubts, error: 0 }
}
