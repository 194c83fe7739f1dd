import type { FramingAsk } from '../../framing/ask.ts'
import { solveCrop } from '../../framing/crop.ts'
import { unwantedAtEdge } from '../../judge/framing-ask.ts'
import type { Measurements } from '../../measure/schema/measurements.ts'
import { isFramed, type Order } from './order.ts'

/**
 * Whether a JPEG is as it is ordered but for its metadata, so that no second encoding is needed: whole, upright, in the ordered space, and
 * saved as ordered. A picture without a profile is taken for sRGB (W3C, CSS Color Module Level 4).
 */
export function isAsOrdered(measured: Measurements, order: Order): boolean {
  const { format, jpeg, color, orientationTag, bytes, widthPx, heightPx } = measured
  const { saving } = order
  if (format !== 'jpeg' || order.format !== 'jpeg' || !jpeg || !color || !widthPx || !heightPx) return false
  const wanted = saving.colorSpace ?? 'sRGB'
  const profile = color.profile === 'none' ? 'sRGB' : color.profile
  const isRgb = color.space === 'rgb' && profile === wanted
  const { min = 0, max = 100 } = saving.quality ?? {}
  const { quality, subsampling, progressive } = jpeg
  return (
    isRgb &&
    (orientationTag ?? 1) === 1 &&
    (saving.quality === undefined || (quality !== null && quality >= min && quality <= max)) &&
    (saving.subsampling === undefined || saving.subsampling.includes(subsampling)) &&
    (saving.progressive === undefined || saving.progressive === progressive) &&
    saving.bitsPerChannel !== 16 &&
    bytes + ROOM_BYTES <= (saving.bytes?.max ?? Infinity) &&
    bytes >= (saving.bytes?.min ?? 0) &&
    (!isFramed(order) || isFramedAsAsked(measured, order.framing))
  )
}

/** What new metadata may add, bytes. @choice no source: the blocks that are written have a few kB. */
const ROOM_BYTES = 8192

function isFramedAsAsked(measured: Measurements, ask: FramingAsk): boolean {
  const { widthPx, heightPx } = measured
  const intrusions = unwantedAtEdge(measured, ask['backdrop-edge']?.smallestPct ?? Infinity)
  const advice = solveCrop(measured, ask, intrusions)
  if (!('crop' in advice) || advice.scaleTo || advice.levelFirst) return false
  return advice.crop.widthPx === widthPx && advice.crop.heightPx === heightPx
}
