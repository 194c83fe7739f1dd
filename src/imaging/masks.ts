import { common, countOf } from '../kernels/masks.ts'

/** What of a mask is brighter than the limit. */
export function brighter(mask: Uint8Array, luminance: Float32Array, limit: number): Uint8Array {
  const out = new Uint8Array(mask.length)
  for (let i = 0; i < out.length; i++) {
    if (mask[i] === 1 && (luminance[i] as number) > limit) out[i] = 1
  }
  return out
}

/** What lies between two limits, both included. */
export function between(values: Float32Array, least: number, most: number): Uint8Array {
  const out = new Uint8Array(values.length)
  for (let i = 0; i < out.length; i++) {
    const value = values[i] as number
    if (value >= least && value <= most) out[i] = 1
  }
  return out
}

/** The values of what the first mask covers and the second does not, in their order. */
export function valuesIn(values: Float32Array, mask: Uint8Array, except: Uint8Array): Float32Array {
  const out = new Float32Array(values.length)
  let count = 0
  for (let i = 0; i < out.length; i++) {
    if (mask[i] === 1 && except[i] === 0) out[count++] = values[i] as number
  }
  return out.subarray(0, count)
}

/** Share of the second mask that the first covers, 0..1; 0 of nothing. */
export function shareOf(mask: Uint8Array, of: Uint8Array): number {
  const whole = countOf(of)
  return whole === 0 ? 0 : countOf(common(mask, of)) / whole
}

/** Mean of what a mask covers; 0 of nothing. */
export function meanOf(values: Float32Array, mask: Uint8Array): number {
  let count = 0
  let sum = 0
  for (let i = 0; i < mask.length; i++) {
    if (mask[i] === 0) continue
    count++
    sum += values[i] as number
  }
  return count === 0 ? 0 : sum / count
}
