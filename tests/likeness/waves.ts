import type { SignatureGrid } from '../../src/measure/schema/measurements.ts'
import { seeded } from '../random.ts'

/** Slow random waves of light and dark, another picture for each seed. */
export function waves(seed: number, columns: number, rows: number, lighter = 0): SignatureGrid {
  const random = seeded(seed)
  const parts = Array.from({ length: 6 }, () => [5 * random() - 2.5, 5 * random() - 2.5, random()] as const)
  const luma = Uint8Array.from({ length: columns * rows }, (_, i) => {
    const [u, v] = [(i % columns) / columns, Math.floor(i / columns) / rows]
    const wave = parts.reduce(
      (sum, [x, y, phase]) => sum + Math.sin(2 * Math.PI * (x * u + y * v + phase)),
      0,
    )
    return Math.max(1, Math.min(255, Math.round(120 + lighter + 20 * wave)))
  })
  return { columns, rows, luma: Buffer.from(luma).toString('base64') }
}
