import type { Jpeg } from '../../schema/measurements.ts'
import { MARKER } from '../bytes/jpeg-markers.ts'
import type { Component, JpegSegments } from '../bytes/segments.ts'
import { ijgQuality } from './quality.ts'

// ITU-T T.81, Table B.1: the progressive processes.
const PROGRESSIVE: readonly number[] = [MARKER.SOF2, MARKER.SOF6, MARKER.SOF10, MARKER.SOF14]

// How often the first component is sampled for one sample of the second, across and down; common practice names.
const SUBSAMPLING: Readonly<Record<string, string>> = {
  '1x1': '4:4:4',
  '2x1': '4:2:2',
  '2x2': '4:2:0',
  '1x2': '4:4:0',
  '4x1': '4:1:1',
  '4x2': '4:1:0',
}

/** Compression facts of a JPEG; null when it has no frame header. */
export function jpegFacts(segments: JpegSegments): Jpeg | null {
  const { frame } = segments
  if (!frame) return null
  const quality = ijgQuality(segments)
  return {
    quality,
    tables: quality === null ? 'non-standard' : 'ijg',
    subsampling: subsamplingOf(frame.components),
    progressive: PROGRESSIVE.includes(frame.marker),
  }
}

/** Of the second and third component against the first; a fourth (black) must be sampled as the first. */
function subsamplingOf(components: readonly Component[]): string {
  const [luma, second, third, black] = components
  if (!luma || !second) return 'none'
  const sameAsSecond = third === undefined || (third.h === second.h && third.v === second.v)
  const sameAsLuma = black === undefined || (black.h === luma.h && black.v === luma.v)
  if (!sameAsSecond || !sameAsLuma) return 'other'
  return SUBSAMPLING[`${luma.h / second.h}x${luma.v / second.v}`] ?? 'other'
}
