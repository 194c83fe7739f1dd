import { common, countOf } from '../kernels/masks.ts'

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
