import { readFile } from 'node:fs/promises'
import { join } from 'node:path'
import sharp from 'sharp'

/** The example's clean delivery: drawn sitters, each on a file of 1200 x 1500 px. */
const PRINTS = join('examples', 'osprey-lane', 'delivery-clean', 'print')

export interface Person {
  readonly family: string
  readonly given: string
  readonly staffId: string
}

/** What is wrong with a frame, by its place among those of a sitter; the others are good. */
export const PLANTED: Readonly<Record<number, 'out of focus' | 'tilted'>> = { 2: 'out of focus', 5: 'tilted' }
export const FRAMES_EACH = 8
/** From this sitter on the backdrop, and all else, has 0.3 stop less light. */
export const DARKER_FROM = 3
const LESS_LIGHT = 2 ** -0.3

/** A frame of a sitter, made of the drawn print: another part of it each time, as a sitter moves. */
export async function frameOf(person: Person, sitter: number, n: number): Promise<Buffer> {
  const { family, given, staffId } = person
  const print = await readFile(join(PRINTS, `${family}-${given}_${staffId}.jpg`.normalize('NFC')))
  const part = { left: 4 + 4 * n, top: 4 + 2 * n, width: 1140, height: 1440 }
  let image = sharp(print).extract(part).resize(760, 960)
  if (PLANTED[n] === 'out of focus') image = image.blur(5)
  if (PLANTED[n] === 'tilted') {
    const turned = await image.rotate(9, { background: '#f4f4f4' }).toBuffer()
    image = sharp(turned).resize(760, 960, { fit: 'cover' })
  }
  if (sitter >= DARKER_FROM) {
    // Light is linear: codes are decoded, dimmed and encoded again (IEC 61966-2-1).
    const { data, info } = await image.raw().toBuffer({ resolveWithObject: true })
    image = sharp(
      data.map((code) => dimmed(code)),
      { raw: info },
    )
  }
  const minute = String(sitter * 4 + Math.floor(n / 2)).padStart(2, '0')
  const taken = `2026:05:12 14:${minute}:${n % 2 === 0 ? '00' : '30'}`
  return image
    .withExif({ IFD2: { DateTimeOriginal: taken } })
    .withIccProfile('srgb')
    .jpeg({ quality: 92, chromaSubsampling: '4:4:4' })
    .toBuffer()
}

function dimmed(code: number): number {
  const value = code / 255
  const linear = LESS_LIGHT * (value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4)
  return Math.round(255 * (linear <= 0.0031308 ? 12.92 * linear : 1.055 * linear ** (1 / 2.4) - 0.055))
}

/** A deliverable made from a frame, which says what file that was, as raw converters do (XMP crs:RawFileName). */
export function deliverable(frame: Buffer, name: string): Promise<Buffer> {
  const xmp = `<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#"><rdf:Description rdf:about="" xmlns:crs="http://ns.adobe.com/camera-raw-settings/1.0/" crs:RawFileName="${name}"/></rdf:RDF></x:xmpmeta>`
  return sharp(frame).resize(400, 500, { fit: 'cover' }).withXmp(xmp).jpeg({ quality: 92 }).toBuffer()
}
