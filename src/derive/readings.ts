import { SURE } from '../measure/schema/confidence.ts'
import type { Doubt, Head, Measurements } from '../measure/schema/measurements.ts'

/** One number of a portrait, for a band to be proposed from. */
export interface Reading {
  /** Null where nothing of use is read. */
  readonly value: number | null
  /** Why there is no value, or what is doubtful about it; empty when it is sure. */
  readonly doubts: readonly Doubt[]
  /** How far the value may be off to either side, in its unit; null where its measurement does not say. */
  readonly error: number | null
}

export type Read = (measured: Measurements) => Reading

// Where the crown merges with the backdrop something is read all the same, and it is near more often than not. Other
// doubts (no plain backdrop, the head out of the frame) mean that nothing of use is read.
const NEAR: Doubt = 'crown-merges-with-backdrop'

/** A number of the head and its error. With its crown in doubt it still is a reading, and told as doubtful. */
export function head(
  value: 'headroomPct' | 'eyeLinePct' | 'headHeightPct',
  error: 'crownErrorPct' | 'eyeLineErrorPct' | 'headHeightErrorPct',
): Read {
  return ({ head: found }) => {
    if (!found) return nothing([])
    const { doubts } = found
    const isSure = found.confidence >= SURE
    if (found[value] === null || !(isSure || isNear(found))) return nothing(doubts)
    return { value: found[value], doubts: isSure ? [] : doubts, error: found[error] }
  }
}

export function backdrop(pick: (found: NonNullable<Measurements['background']>) => number): Read {
  return ({ background }) =>
    background && background.confidence >= SURE ? sure(pick(background)) : nothing(background?.doubts ?? [])
}

/** The size of a number of the face, whatever its sign, and its error. */
export function face(
  value: (measured: Measurements) => number | null | undefined,
  error: (measured: Measurements) => number | null | undefined,
): Read {
  return (measured) => {
    const found = measured.face && measured.face.confidence >= SURE ? value(measured) : null
    return found == null
      ? nothing(measured.face?.doubts ?? [])
      : sure(Math.abs(found), error(measured) ?? null)
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

function sure(value: number, error: number | null = null): Reading {
  return { value, doubts: [], error }
}

function nothing(doubts: readonly Doubt[]): Reading {
  return { value: null, doubts, error: null }
}
