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
  /** What the sitter's light at a pixel is multiplied by. */
  readonly texture: (x: number, y: number) => number
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
const UNSEEN: Linear = [0, 0, 0]

/** Puts the people before the backdrop in linear light, shades them by the key light, and adds noise. */
export function composed(layers: Layers): { pixels: Buffer; counted: LightnessCount } {
  const { widthPx, heightPx, people, shadow, texture } = layers
  const sitter = people.at(-1)
  const pixels = Buffer.alloc(widthPx * heightPx * 3)
  const counted = new LightnessCount()
  const noise = noiseOf(layers.noise, layers.seed)
  const shade = shadeOf(layers)
  for (let y = 0; y < heightPx; y++) {
    for (let x = 0; x < widthPx; x++) {
      const at = y * widthPx + x
      // Nothing of what somebody covers whole is seen.
      let first = people.length - 1
      while (first >= 0 && people[first]?.[at * 4 + 3] !== 255) first--
      const plain =
        first >= 0
          ? UNSEEN
          : dimmed(layers.light((x + 0.5) / widthPx, (y + 0.5) / heightPx), shadow?.[at] ?? 0)
      let [red, green, blue] = plain
      let covered = false
      for (let i = Math.max(0, first); i < people.length; i++) {
        const person = people[i] as Buffer
        const alpha = (person[at * 4 + 3] as number) / 255
        if (alpha === 0) continue
        covered = true
        const gain = person === sitter ? shade(x, y) * texture(x, y) : shade(x, y)
        red = over(person[at * 4] as number, gain, alpha, red)
        green = over(person[at * 4 + 1] as number, gain, alpha, green)
        blue = over(person[at * 4 + 2] as number, gain, alpha, blue)
      }
      if (!covered) counted.add(plain)
      pixels[at * 3] = coded(red, noise())
      pixels[at * 3 + 1] = coded(green, noise())
      pixels[at * 3 + 2] = coded(blue, noise())
    }
  }
  return { pixels, counted }
}

function coded(light: number, noise: number): number {
  const code = CODES[Math.round(65_536 * Math.min(1, Math.max(0, light)))] as number
  return Math.min(255, Math.max(0, Math.round(code + noise)))
}

function dimmed(color: Linear, stops: number): Linear {
  if (stops === 0) return color
  const gain = 2 ** -stops
  return [color[0] * gain, color[1] * gain, color[2] * gain]
}

/** One channel of a code over the light below it. */
function over(code: number, gain: number, alpha: number, below: number): number {
  return (LINEAR[code] as number) * gain * alpha + below * (1 - alpha)
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
