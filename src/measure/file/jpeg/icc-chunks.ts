import { beginsWith } from '../bytes/begins-with.ts'
import type { JpegSegments } from '../bytes/segments.ts'

/** Number of the application segments that hold profiles. @source ICC.1:2022, Annex B.4. */
const APP2 = 2
const SIGNATURE = 'ICC_PROFILE\0'
// The signature, the chunk's number, and how many there are.
const HEAD = SIGNATURE.length + 2

/**
 * The ICC profile of a JPEG, put together from its APP2 chunks in the order they are numbered in, whatever order
 * they come in (ICC.1:2022 Annex B.4). Null when there is none; `broken` when a chunk is missing, comes twice,
 * or the chunks disagree on how many there are.
 */
export function iccOf({ apps }: JpegSegments): Buffer | 'broken' | null {
  const payloads = apps
    .filter(({ n, payload, inHeader }) => inHeader && n === APP2 && isChunk(payload))
    .map(({ payload }) => payload)
  if (payloads.length === 0) return null
  const chunks = payloads
    .map((payload) => ({
      number: payload.readUInt8(SIGNATURE.length),
      count: payload.readUInt8(SIGNATURE.length + 1),
      data: payload.subarray(HEAD),
    }))
    .sort((one, other) => one.number - other.number)
  const whole = chunks.every((chunk, place) => chunk.number === place + 1 && chunk.count === chunks.length)
  return whole ? Buffer.concat(chunks.map(({ data }) => data)) : 'broken'
}

function isChunk(payload: Buffer): boolean {
  return payload.length >= HEAD && beginsWith(payload, SIGNATURE)
}
