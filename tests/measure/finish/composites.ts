import sharp from 'sharp'
import type { Backdrop, Frame } from '../../../examples/drawing/frame.ts'
import type { Portrait } from '../../../examples/drawing/portrait.ts'
import { SITTERS } from '../../../examples/drawing/sitters.ts'
import type { DecodedPicture } from '../../../src/measure/file/decoded-picture.ts'
import { drawnPortrait } from '../../drawn.ts'
import { gaussian } from '../../random.ts'

/** What is laid over or behind a drawn sitter; an SVG in px, and whether the sitter stands before it. */
export interface Laid {
  readonly svg: (width: number, height: number) => string
  /** `behind`: only where the backdrop shows. `before`: over everything. */
  readonly where: 'behind' | 'before'
  /** Blur of its edges in px, as of something out of focus. */
  readonly blurPx?: number
  /** Changes the lightness beneath by so many L* in place of painting a color. */
  readonly lift?: number
}

export const WIDTH = 400
export const HEIGHT = 500

export interface Taken {
  readonly family: string
  readonly backdrop: Backdrop
  readonly noise?: number
  readonly frame?: Partial<Frame>
}

/** A drawn sitter with something laid over or behind. */
export async function composite(taken: Taken, laid: readonly Laid[]): Promise<DecodedPicture> {
  const data = Buffer.from((await pictureOf(taken)).pixels)
  for (const { svg, where, blurPx = 0, lift } of laid) {
    const image = sharp(Buffer.from(wrapped(svg(WIDTH, HEIGHT)))).ensureAlpha()
    const layer = await (blurPx >= 0.3 ? image.blur(blurPx) : image).raw().toBuffer()
    const cover = where === 'behind' ? await coverOf(taken) : null
    for (let i = 0; i < WIDTH * HEIGHT; i++) {
      const alpha = ((layer[4 * i + 3] as number) / 255) * (1 - (cover?.[i] ?? 0))
      if (alpha === 0) continue
      for (let c = 0; c < 3; c++) {
        const below = data[3 * i + c] as number
        const above = lift === undefined ? (layer[4 * i + c] as number) : lifted(below, lift)
        data[3 * i + c] = Math.round(below + alpha * (above - below))
      }
    }
  }
  const sigma = taken.noise ?? 0.8
  noise ??= Float64Array.from(data, gaussian(7))
  for (let i = 0; i < data.length; i++)
    data[i] = Math.min(255, Math.max(0, Math.round((data[i] as number) + sigma * (noise[i] as number))))
  return { data, width: WIDTH, height: HEIGHT, transparentShare: 0 }
}

/** The same for all pictures, which are of one size. */
let noise: Float64Array | undefined

const drawn = new Map<string, Promise<Portrait>>()
const covers = new Map<string, Promise<Float32Array>>()

/** Drawn once for all the cases that share it. */
function pictureOf({ family, backdrop, frame }: Taken): Promise<Portrait> {
  const key = JSON.stringify([family, backdrop, frame])
  const sitter = SITTERS.find((each) => each.family === family)
  if (!sitter) throw new Error(`No sitter of the family name ${family}.`)
  const whole: Frame = {
    widthPx: WIDTH,
    heightPx: HEIGHT,
    placement: { crownY: 0.13, chinY: 0.56 },
    key: { side: 'left', ratioStops: 0.5 },
    ...frame,
    backdrop,
  }
  const known = drawn.get(key) ?? drawnPortrait(sitter.look, whole)
  drawn.set(key, known)
  return known
}

/** How much of each pixel is the sitter, 0 to 1; found once for all the cases that share it. */
function coverOf(taken: Taken): Promise<Float32Array> {
  const key = JSON.stringify([taken.family, taken.frame])
  const known = covers.get(key) ?? readCover(taken)
  covers.set(key, known)
  return known
}

/** What of a white backdrop is missing, compared with a black one. */
async function readCover(taken: Taken): Promise<Float32Array> {
  const [black, white] = await Promise.all(
    [0, 255].map((color) => pictureOf({ ...taken, backdrop: { color } })),
  )
  const at = (portrait: Portrait | undefined, i: number) => linear(portrait?.pixels[3 * i + 1] ?? 0)
  return Float32Array.from({ length: WIDTH * HEIGHT }, (_, i) =>
    Math.min(1, Math.max(0, 1 - (at(white, i) - at(black, i)))),
  )
}

function linear(code: number): number {
  const value = code / 255
  return value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4
}

/** A neutral-keeping change of lightness: near neutral, L* and code are linked by IEC 61966-2-1 and CIE 15. */
function lifted(code: number, by: number): number {
  const y = linear(code)
  const L = y > 216 / 24389 ? 116 * Math.cbrt(y) - 16 : (y * 24389) / 27
  const to = Math.max(0, Math.min(100, L + by))
  const light = to > 8 ? ((to + 16) / 116) ** 3 : (to * 27) / 24389
  return 255 * (light <= 0.0031308 ? light * 12.92 : 1.055 * light ** (1 / 2.4) - 0.055)
}

function wrapped(body: string): string {
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${WIDTH}" height="${HEIGHT}">${body}</svg>`
}
