import type { BackdropLight } from './backdrop.ts'
import { fromLinear, type Linear, toLinear } from './color.ts'
import { seededRandom } from './random.ts'
import type { Stand } from './sitter-svg.ts'
import { LightnessCount } from './truth.ts'

export interface Layers {
  readonly widthPx: number
  readonly heightPx: number
  readonly light: BackdropLight
  /** Straight RGBA drawings, the farthest first; the last is the sitter. */
  readonly people: readonly Buffer[]
  /** Stops of light the backdrop loses, per pixel. */
  readonly shadow: Float32Array | null
  /** Standard deviation in codes. */
  readonly noise: number
  readonly seed: number
  readonly keyLight: {
    readonly sign: -1 | 1
    readonly ratioStops: number
    readonly stand: Stand
    readonly halfBreadth: number
  }
}

/** Codes by linear light in 65536 steps: a power per channel and pixel would cost more than the drawing. */
const CODES = Float32Array.from({ length: 65_537 }, (_, step) => fromLinear(step / 65_536))
const LINEAR = Float64Array.from({ length: 256 }, (_, code) => toLinear(code))

/** Puts the people before the backdrop in linear light, shades them by the key light, and adds noise. */
export function composed(layers: Layers): { pixels: Buffer; counted: LightnessCount } {
  const { widthPx, heightPx, people, shadow } = layers
  const pixels = Buffer.alloc(widthPx * heightPx * 3)
  const counted = new LightnessCount()
  const noise = noiseOf(layers.noise, layers.seed)
  const shade = shadeOf(layers)
  for (let y = 0; y < heightPx; y++) {
    for (let x = 0; x < widthPx; x++) {
      const at = y * widthPx + x
      const plain = dimmed(layers.light((x + 0.5) / widthPx, (y + 0.5) / heightPx), shadow?.[at] ?? 0)
      let color: Linear = plain
      let covered = false
      for (const person of people) {
        const alpha = (person[at * 4 + 3] ?? 0) / 255
        if (alpha === 0) continue
        covered = true
        color = over(person, at * 4, alpha, shade(x, y), color)
      }
      if (!covered) counted.add(plain)
      for (let channel = 0; channel < 3; channel++) {
        pixels[at * 3 + channel] = Math.min(
          255,
          Math.max(0, Math.round(code(color[channel as 0 | 1 | 2]) + noise())),
        )
      }
    }
  }
  return { pixels, counted }
}

function code(light: number): number {
  return CODES[Math.round(65_536 * Math.min(1, Math.max(0, light)))] ?? 0
}

function dimmed(color: Linear, stops: number): Linear {
  if (stops === 0) return color
  const gain = 2 ** -stops
  return [color[0] * gain, color[1] * gain, color[2] * gain]
}

function over(person: Buffer, at: number, alpha: number, gain: number, below: Linear): Linear {
  const channel = (index: 0 | 1 | 2): number =>
    (LINEAR[person[at + index] ?? 0] ?? 0) * gain * alpha + below[index] * (1 - alpha)
  return [channel(0), channel(1), channel(2)]
}

/**
 * Light on the sitter: full on the key side, `ratioStops` less on the other. It turns within the middle of the face, and
 * over the whole breadth of the shoulders.
 */
function shadeOf({ keyLight }: Layers): (x: number, y: number) => number {
  const { stand, sign, ratioStops, halfBreadth } = keyLight
  const turn = (stand.tiltDeg * Math.PI) / 180
  const [cos, sin] = [
    Math.cos(turn) / (stand.scale * halfBreadth),
    Math.sin(turn) / (stand.scale * halfBreadth),
  ]
  const table = Float64Array.from({ length: 257 }, (_, step) => {
    const share = step / 256
    return 2 ** (-ratioStops * share * share * (3 - 2 * share))
  })
  return (x, y) => {
    const away = -sign * ((x - stand.x) * cos + (y - stand.y) * sin)
    const below = (y - stand.y) * cos - (x - stand.x) * sin
    const reach = 0.9 + 2.6 * Math.min(1, Math.max(0, below - 1.5))
    return table[Math.round(256 * Math.min(1, Math.max(0, away / reach + 0.5)))] ?? 1
  }
}

/** Gaussian noise drawn from a fixed table, because a logarithm per pixel would cost more than the drawing. */
function noiseOf(sigma: number, seed: number): () => number {
  if (sigma === 0) return () => 0
  const random = seededRandom(seed ^ 0x5eed)
  const table = Float32Array.from(
    { length: 4096 },
    () => sigma * Math.sqrt(-2 * Math.log(1 - random.next())) * Math.cos(2 * Math.PI * random.next()),
  )
  return () => table[Math.floor(random.next() * 4096)] ?? 0
}
