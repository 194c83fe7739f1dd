import type { WorthDecoding } from './formats.ts'
import type { MeasurementGroup, Measurements } from './measurements.ts'

/** Which copy of a content is measured, and in which formats a picture is worth decoding. */
export interface Wanted {
  /** Relative to the delivery root, with /. */
  readonly file: string
  readonly formats?: WorthDecoding
  /**
   * Whether it is as the camera made it: a raw file is then measured by the largest JPEG that it embeds, and what retouching and export leave, as the
   * wedges of straightening, is not looked for.
   */
  readonly isFrame?: boolean
}

/** Where measurements are kept from one run to the next, by the content of the file. Never rejects. */
export interface MeasurementStore {
  /** What was measured of a file with this content, just as measuring it would give it; null when not all is known. */
  find(sha256: string, groups: readonly MeasurementGroup[], wanted: Wanted): Promise<Measurements | null>
  keep(
    sha256: string,
    groups: readonly MeasurementGroup[],
    measurements: Measurements,
    wanted?: Pick<Wanted, 'isFrame'>,
  ): Promise<void>
}
