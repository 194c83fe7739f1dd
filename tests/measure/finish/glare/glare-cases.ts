import type { Frame } from '../../../../examples/drawing/frame.ts'
import type { Look, Spectacles } from '../../../../examples/drawing/look.ts'
import type { LensGlare } from '../../../../examples/drawing/reflections.ts'
import { SITTERS } from '../../../../examples/drawing/sitters.ts'

export interface GlareCase {
  readonly name: string
  readonly look: Look
  readonly frame: Frame
  readonly glare: boolean
}

const TONES = 10
const PER_TONE = 6
const SHARES = [0.05, 0.1, 0.2, 0.35, 0.6, 1] as const
const SHAPES = ['umbrella', 'window', 'strip'] as const
// Plain light, the green and the blue that coatings leave, and a light half seen through.
const LIGHTS = [
  { color: [255, 255, 255], opacity: 0.97 },
  { color: [200, 255, 225], opacity: 0.9 },
  { color: [235, 240, 255], opacity: 0.8 },
  { color: [255, 255, 255], opacity: 0.6 },
] as const

/**
 * Drawn sitters of all ten Monk tones: in each tone one without spectacles, one with thin and one with thick frames, no
 * glare, and one or two catchlights of differing sizes; and three with glare of 5 % of a lens to a whole lens, in thin
 * and thick frames, on one lens or both, of three shapes and four lights, off the middle in all directions.
 */
export const GLARE_CASES: readonly GlareCase[] = Array.from({ length: TONES * PER_TONE }, (_, n) => {
  const tone = n % TONES
  const k = Math.floor(n / TONES)
  const glare = k >= 3
  const spectacles: Spectacles = glare
    ? k % 2 === 0
      ? 'thick'
      : 'thin'
    : pick<Spectacles>(['none', 'thin', 'thick'], k)
  const { family, look } = pick(SITTERS, tone * 7 + k * 3)
  const frame: Frame = {
    widthPx: 400,
    heightPx: 500,
    placement: { crownY: 0.02, chinY: 0.86 },
    tiltDeg: (((tone + k) % 5) - 2) * 1.5,
    backdrop: { color: 244 },
    key: { side: k % 2 === 0 ? 'left' : 'right', ratioStops: pick([0.2, 0.5, 0.9, 1.2], tone + k) },
    noise: 1 + (k % 3),
    catchlights: { count: k % 2 === 0 ? 1 : 2, size: pick([1, 1.2, 1.4], tone + k) },
    ...(glare && { lensGlare: glareOf(n) }),
  }
  return {
    name: `${family}, tone ${tone + 1}, ${spectacles}, ${glare ? JSON.stringify(frame.lensGlare) : 'no glare'}`,
    look: { ...look, tone, spectacles },
    frame,
    glare,
  }
})

function glareOf(n: number): Partial<LensGlare> {
  const share = pick(SHARES, n + Math.floor(n / TONES))
  const shape = pick(SHAPES, n)
  return {
    share,
    // A strip of so small a share would be a line of a millimeter, thinner than a rim.
    shape: shape === 'strip' && share < 0.15 ? 'umbrella' : shape,
    on: pick(['both', 'left', 'right'], n >> 1),
    at: [(((n * 5) % 7) - 3) * 3, (((n * 3) % 5) - 2) * 3],
    ...pick(LIGHTS, n + (n >> 2)),
  }
}

function pick<T>(list: readonly T[], index: number): T {
  return list[index % list.length] as T
}
