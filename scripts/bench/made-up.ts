import type { Face, PictureSignature, SignatureGrid } from '../../src/measure/schema/measurements.ts'
import { seeded } from '../../tests/random.ts'

/** What one portrait is compared by. */
export interface Shown {
  readonly face: Face
  readonly signature: PictureSignature
}

// Of a wave of light or dark over a grid: codes at its height, and how many times it goes up and down along a grid at most.
const [HEIGHT, WAVES] = [24, 2.5]

/** As many portraits as asked for, each one of those given blended with another one, under slow random waves of light and dark. The same of the same every time. */
export function madeUp(given: readonly Shown[], count: number): Shown[] {
  const random = seeded(count + given.length)
  return Array.from({ length: count }, (_, i) => {
    const one = given[i % given.length] as Shown
    const other = given[Math.floor(random() * given.length)] as Shown
    const share = 0.3 + 0.4 * random()
    const grid = (name: 'face' | 'head' | 'frame') => {
      const [a, b] = [one.signature[name], other.signature[name]]
      return a && b && waved(a, b, share, random)
    }
    return {
      face: one.face,
      signature: { face: grid('face'), head: grid('head'), frame: grid('frame') as SignatureGrid },
    }
  })
}

function waved(a: SignatureGrid, b: SignatureGrid, share: number, random: () => number): SignatureGrid {
  const { columns, rows } = a
  const [p, q] = [Buffer.from(a.luma, 'base64'), Buffer.from(b.luma, 'base64')]
  const [x, y, phase] = [WAVES * random() - WAVES / 2, WAVES * random() - WAVES / 2, random()]
  const out = Buffer.alloc(columns * rows)
  for (let i = 0; i < out.length; i++) {
    const [column, row] = [(i % columns) / columns, Math.floor(i / columns) / rows]
    const at = Math.floor(row * b.rows) * b.columns + Math.floor(column * b.columns)
    const [here, there] = [p[i] as number, q[at] as number]
    const wave = HEIGHT * Math.sin(2 * Math.PI * (x * column + y * row + phase))
    const luma = there !== 0 ? (1 - share) * here + share * there : here
    out[i] = here === 0 ? 0 : Math.max(1, Math.min(255, Math.round(luma + wave)))
  }
  return { columns, rows, luma: out.toString('base64') }
}
