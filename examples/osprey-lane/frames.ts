import sharp from 'sharp'
import type { Frame } from '../drawing/frame.ts'
import { drawPortrait } from '../drawing/portrait.ts'
import { SITTERS, type Sitter } from '../drawing/sitters.ts'
import { pictureOf } from './house-style.ts'

/** A frame of a session that is drawn as a camera would have made it: upright, with room around the sitter. */
export interface DrawnFrame {
  readonly sitter: Sitter
  /** As the camera counts: OSL_0101.JPG. */
  readonly name: string
  /** Local time of the camera, as Exif writes it. */
  readonly taken: string
  /** What is wrong in it, in words; null for a good frame. */
  readonly fault: string | null
  readonly frame: Frame
}

/** Pixels of a drawn frame. @choice 4 megapixels are drawn in half a second, and hold all that is ordered. */
const SIZE = { widthPx: 1664, heightPx: 2496 } as const

/** What can go wrong on location, in turns. */
const FAULTS: readonly (readonly [string, (frame: Frame) => Frame])[] = [
  ['the eyes are out of focus', (frame) => ({ ...frame, defocusPx: 6 })],
  ['the head touches the upper edge', (frame) => ({ ...frame, placement: { crownY: 0.004, chinY: 0.3 } })],
  ['the light is reflected by the spectacles', (frame) => ({ ...frame, lensGlare: { share: 0.4 } })],
  ['the head is tilted', (frame) => ({ ...frame, tiltDeg: 7 })],
]

/** Number of the first frame, as the camera counts. */
const FIRST = 101
const START = Date.UTC(2026, 4, 12, 9, 0, 0)
const SECONDS_APART = 15
const SECONDS_A_SITTER = 240

/**
 * The frames of a session, sitter by sitter. Every third is faulty; from the middle on, the backdrop's light is a third of a
 * stop lower.
 */
export function framesOf(sitters: number, each: number): DrawnFrame[] {
  const all = SITTERS.slice(0, sitters).flatMap((sitter, s) =>
    Array.from({ length: each }, (_, n) => ({ sitter, s, n, count: s * each + n })),
  )
  return all.map(({ sitter, s, n, count }) => {
    const plain = plainFrame(sitter, n, count >= all.length / 2)
    const faulty = n % 3 === 2 ? FAULTS[(s + n) % FAULTS.length] : undefined
    // Without spectacles there is nothing to be reflected by.
    const [fault, spoil] =
      faulty?.[0].includes('spectacles') && sitter.look.spectacles === 'none'
        ? (FAULTS[0] ?? [])
        : (faulty ?? [])
    const time = new Date(START + 1000 * (s * SECONDS_A_SITTER + n * SECONDS_APART))
    return {
      sitter,
      name: `OSL_${String(FIRST + count).padStart(4, '0')}.JPG`,
      taken: time.toISOString().slice(0, 19).replaceAll('-', ':').replace('T', ' '),
      fault: fault ?? null,
      frame: spoil ? spoil(plain) : plain,
    }
  })
}

function plainFrame(sitter: Sitter, n: number, isDarker: boolean): Frame {
  const cropped = pictureOf(sitter)
  const L = isDarker ? 88 : 96.4
  return {
    ...cropped,
    ...SIZE,
    placement: { crownY: 0.17 + 0.004 * (n % 4), chinY: 0.46 + 0.004 * (n % 3) },
    tiltDeg: (cropped.tiltDeg ?? 0) + 0.3 * ((n % 3) - 1),
    backdrop: { color: { L, a: 0, b: 0 }, vignetteStops: 0.05 },
    moment: { smile: n % 4, turnDeg: (n % 3) - 1 },
  }
}

/** Draws a frame, as a JPEG with what a camera says of it. */
export async function drawFrame({ sitter, frame, taken }: DrawnFrame): Promise<Buffer> {
  const { pixels, widthPx: width, heightPx: height } = await drawPortrait(sitter.look, frame)
  return sharp(pixels, { raw: { width, height, channels: 3 } })
    .withExif({ IFD0: { Make: 'Drawn' }, IFD2: { DateTimeOriginal: taken } })
    .withIccProfile('srgb')
    .jpeg({ quality: 92, chromaSubsampling: '4:4:4' })
    .toBuffer()
}
