import type { Measurements } from './measurements.ts'
import { knownOf } from './unmeasured.ts'

/** Formats that may be decoded; no other content ever reaches the decoder. */
export const DECODABLE = ['jpeg', 'png', 'tiff', 'webp', 'avif'] as const
export type Decodable = (typeof DECODABLE)[number]

/** Formats worth decoding; undefined for all that can be decoded. */
export type WorthDecoding = readonly Decodable[] | undefined

export function isDecodable(format: string | null): format is Decodable {
  return DECODABLE.some((decodable) => decodable === format)
}

/** Whether a picture of this format could be decoded but is not worth it. */
export function isRefused(format: string | null, formats: WorthDecoding): boolean {
  return formats !== undefined && isDecodable(format) && !formats.includes(format)
}

/** What is measured of a picture that is refused for its format: nothing within it is looked at. */
export function refused({ file, bytes, sha256, format }: Measurements): Measurements {
  return { ...knownOf(file), bytes, sha256, format, fault: { kind: 'format', detail: '' } }
}
