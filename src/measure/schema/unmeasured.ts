import type { FileMeasurements } from './measurements.ts'
import { MEASURER_VERSION } from './measurer-version.ts'

const UNKNOWN = {
  sha256: null,
  format: null,
  widthPx: null,
  heightPx: null,
  orientationTag: null,
  ppi: null,
  bitsPerChannel: null,
  channels: null,
  hasAlpha: null,
  color: null,
  jpeg: null,
  peakChromaC: null,
  others: null,
  intact: null,
} satisfies Partial<FileMeasurements>

/** A file before anything of it is measured. */
export function knownOf(file: string): Omit<FileMeasurements, 'bytes' | 'fault'> {
  return { measurer: MEASURER_VERSION, file, ...UNKNOWN }
}

/** Longest detail of a fault, characters. @choice the words of a library can hold the data that it stumbled over; no source. */
const MOST_DETAIL = 300

/** What stands in place of the measurements of a link that is not followed. @param detail where it leads */
export function unfollowed(file: string, detail: string): FileMeasurements {
  return { ...knownOf(file), bytes: 0, fault: { kind: 'link', detail } }
}

/** What stands in place of the measurements of a file that could not be measured within the limits. */
export function unmeasured(file: string, detail: string): FileMeasurements {
  const said = detail.length > MOST_DETAIL ? `${detail.slice(0, MOST_DETAIL)} ...` : detail
  return { ...knownOf(file), bytes: 0, fault: { kind: 'not-measured', detail: said } }
}
