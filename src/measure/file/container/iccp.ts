import { inflateSync } from 'node:zlib'
import type { PngChunk } from '../bytes/png.ts'

/** Largest profile that a JPEG can hold, bytes. @source ICC.1:2022, Annex B.4: 255 chunks in segments of 64 KiB. */
const MAX_PROFILE = 255 * 65_519

/**
 * The ICC profile of a PNG (PNG, third edition, 11.3.2.3): a name, a NUL, the compression method 0, and the profile packed.
 * Null when there is none; `broken` when it does not unpack without complaint, and one reader would take it and the next
 * one would not. Never throws.
 */
export function iccOfPng(chunks: readonly PngChunk[]): Buffer | 'broken' | null {
  const data = chunks.find(({ type }) => type === 'iCCP')?.data
  if (!data) return null
  const end = data.indexOf(0)
  if (end < 0 || data[end + 1] !== 0) return 'broken'
  try {
    return inflateSync(data.subarray(end + 2), { maxOutputLength: MAX_PROFILE })
  } catch {
    return 'broken'
  }
}
