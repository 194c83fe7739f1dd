import type { Measurements } from '../measure/schema/measurements.ts'
import { LEAST_SPREAD } from '../rules/judging/least-spread.ts'
import { asked } from '../text/quantity.ts'
import { LEAST, proposeBand } from './bands.ts'
import { type FileReading, type Known, noteOf, why } from './notes.ts'
import { backdrop, face, focus, head, type Read } from './readings.ts'

/** A line of the spec with what it rests on, or why there is none. */
export interface Line {
  /** Without indentation, such as "headroom: { min: 5, max: 13 }"; null when nothing can be proposed. */
  readonly setting: string | null
  readonly note: string
  /** Files that were left out since they stand off the others. */
  readonly outliers: readonly string[]
}

interface Numbered {
  readonly rule: string
  readonly unit: string
  /** Smallest spread that makes a value an outlier. */
  readonly least: number
  readonly value: Read
  readonly write: (min: number, max: number) => string
}

// The margin must not reach beyond the frame: a negative headroom would allow cut heads.
const range = (min: number, max: number) => `{ min: ${asked(Math.max(0, min))}, max: ${asked(max)} }`
const atMost = (_: number, max: number) => `{ max: ${asked(Math.max(0, max))} }`

/**
 * Error of measuring where the measurement does not tell it, in the rule's unit.
 * @tuned on drawn backdrops, whose lightness is read within 0.15 L*; with it and the errors told all 60 ranges proposed from 20 drawn deliveries
 * hold the truth (tests/derive).
 */
const ERROR = 0.25

/** The framing, which each deliverable has its own of. */
export const FRAMING: readonly Numbered[] = [
  {
    rule: 'headroom',
    unit: ' %',
    least: LEAST_SPREAD.headroomPct,
    value: head('headroomPct', 'crownErrorPct'),
    write: range,
  },
  {
    rule: 'eye-line',
    unit: ' %',
    least: LEAST_SPREAD.eyeLinePct,
    value: head('eyeLinePct', 'eyeLineErrorPct'),
    write: range,
  },
  {
    rule: 'head-height',
    unit: ' %',
    least: LEAST_SPREAD.headHeightPct,
    value: head('headHeightPct', 'headHeightErrorPct'),
    write: range,
  },
  {
    rule: 'centering',
    unit: ' %',
    least: LEAST_SPREAD.offCenterPct,
    value: face(
      ({ head: found }) => found?.offCenterPct,
      ({ head: found }) => found?.offCenterErrorPct,
    ),
    write: atMost,
  },
]

/** The sharpness of the eyes. */
export const EYE_FOCUS: Numbered = {
  rule: 'eye-focus',
  unit: ' px',
  least: LEAST_SPREAD.eyeFocusPx,
  value: focus,
  write: atMost,
}

/** What all deliverables have in common. */
export const PICTURE: readonly Numbered[] = [
  {
    rule: 'background-lightness',
    unit: ' L*',
    least: LEAST_SPREAD.lightnessL,
    value: backdrop(({ lightnessL }) => lightnessL),
    write: (min, max) => `{ target: ${asked((min + max) / 2)}, tolerance: ${asked((max - min) / 2)} }`,
  },
  {
    rule: 'background-unevenness',
    unit: ' L*',
    least: LEAST_SPREAD.unevennessL,
    value: backdrop(({ unevennessL }) => unevennessL),
    write: atMost,
  },
  {
    rule: 'background-tint',
    unit: ' C*',
    least: LEAST_SPREAD.tint,
    value: backdrop(({ chromaC }) => chromaC),
    write: (_, max) => `{ max-chroma: ${asked(Math.max(0, max))} }`,
  },
  {
    rule: 'tilt',
    unit: '°',
    least: LEAST_SPREAD.tiltDeg,
    value: face(
      ({ face: found }) => found?.tiltDeg,
      ({ face: found }) => found?.tiltErrorDeg,
    ),
    write: atMost,
  },
]

/** The line for a rule on a number. */
export function proposeNumber(rule: Numbered, files: readonly Measurements[]): Line {
  const read = files.map((file): FileReading => ({ file: file.file, ...rule.value(file) }))
  const known = read.flatMap((one): Known[] => (one.value === null ? [] : [{ ...one, value: one.value }]))
  const values = (isSure: boolean) =>
    known
      .filter(({ doubts }) => (doubts.length === 0) === isSure)
      .map(({ value, error }) => ({ value, error: error ?? ERROR }))
  const band = proposeBand(values(true), rule.least, values(false))
  if (!band)
    return {
      setting: null,
      note: `${rule.rule} was left out: it was measured in ${values(true).length} of ${files.length} portraits${why(read)}; ${LEAST} are needed`,
      outliers: [],
    }
  const isKept = ({ value }: Known) => !band.outliers.includes(value)
  return {
    setting: `${rule.rule}: ${rule.write(band.min, band.max)}`,
    note: noteOf(rule.unit, known.filter(isKept), band.outliers.length, read),
    outliers: known.filter((reading) => !isKept(reading)).map(({ file }) => file),
  }
}

/** Share of the files that must agree for a setting to be proposed. @choice common practice, no source: one file in ten may be an exception. */
export const AGREED = 0.9

/** The line for a rule on a value that is the same in nearly all files. */
export function proposeSame<T extends string | number>(
  rule: string,
  files: readonly Measurements[],
  value: (file: Measurements) => T | null,
  write: (value: T) => string,
): Line {
  const counts = new Map<T, number>()
  for (const file of files) {
    const own = value(file)
    if (own !== null) counts.set(own, (counts.get(own) ?? 0) + 1)
  }
  const [top] = [...counts].sort(([, a], [, b]) => b - a)
  if (!top || top[1] < AGREED * files.length) {
    const why = top ? 'the portraits differ in it' : 'no portrait states it'
    return { setting: null, note: `${rule} was left out: ${why}`, outliers: [] }
  }
  const others = files.filter((file) => value(file) !== top[0]).map(({ file }) => file)
  return { setting: `${rule}: ${write(top[0])}`, note: `${top[1]} of ${files.length}`, outliers: others }
}
