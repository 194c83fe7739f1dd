import sharp from 'sharp'
import { linearLight } from '../../../../src/color/transfer.ts'
import type { RgbPicture } from '../../../../src/imaging/rgb-picture.ts'
import type { LocatedFace } from '../../../../src/measure/face/find-faces.ts'
import type { Composite } from './composite-cases.ts'
import { LENS, lightShape } from './lens-light.ts'

// Points of the face mesh on the lids of the eye at the left of the frame, and at the right.
const LIDS = [
  [33, 160, 158, 133, 153, 144],
  [362, 385, 387, 263, 373, 380],
] as const
// Millimeters between the pupils (a mean of adults, from memory): spectacles are drawn by it.
const PUPILS = 64
const SIDES = [-1, 1] as const

/** Puts spectacles, lights and catchlights on the eyes of a photograph. Light is added in linear light, as lenses do. */
export async function composited(
  picture: RgbPicture,
  face: LocatedFace,
  { spectacles, catchlights, light }: Composite,
): Promise<RgbPicture> {
  const [left, right] = face.irises
  const unit = Math.hypot(right[0] - left[0], right[1] - left[1]) / PUPILS
  const lean = (Math.atan2(right[1] - left[1], right[0] - left[0]) * 180) / Math.PI
  const at = (side: -1 | 1) => {
    const [x, y] = face.irises[side < 0 ? 0 : 1]
    return `translate(${x} ${y}) rotate(${lean}) scale(${unit}) translate(${side} 2) scale(${side} 1)`
  }
  const framed = spectacles === 'none' ? picture : await over(picture, frames(spectacles, at, unit))
  const shone =
    light === null
      ? framed
      : await addLight(
          framed,
          SIDES.filter((side) => light.on === 'both' || side < 0 === (light.on === 'left'))
            .map(
              (side) =>
                `<g transform="${at(side)}"><g clip-path="url(#lens)"><g filter="url(#soft)">${lightShape(light)}</g></g></g>`,
            )
            .join(''),
          light.tint.map((share) => share * light.strength),
        )
  if (catchlights === 0) return shone
  const outline = (eye: 0 | 1) =>
    `<clipPath id="eye${eye}"><path d="M${LIDS[eye].map((index) => face.mesh[index]?.slice(0, 2).join(' ')).join('L')}Z"/></clipPath>`
  const spots = ([0, 1] as const)
    .map((eye) => {
      const [x, y] = face.irises[eye]
      const second = catchlights === 2 ? '<ellipse cx="2" cy="1.6" rx="0.8" ry="0.7" fill="#fff"/>' : ''
      return `${outline(eye)}<g clip-path="url(#eye${eye})"><g transform="translate(${x} ${y}) rotate(${lean}) scale(${unit})"><rect x="-2.7" y="-2.4" width="2.2" height="2.2" rx="0.5" fill="#fff"/>${second}</g></g>`
    })
    .join('')
  return addLight(shone, spots, [1.1, 1.1, 1.1])
}

function frames(kind: 'thin' | 'thick', at: (side: -1 | 1) => string, unit: number): string {
  const [width, color, shine] = kind === 'thick' ? [3.6, '#2a1d18', 0.2] : [1.2, '#6d6862', 0.45]
  return SIDES.map(
    (side) => `<g transform="${at(side)}" fill="none" stroke-linecap="round">
      <path d="${LENS}" stroke="#000" stroke-width="${width}" opacity="0.25" transform="translate(0 2)" filter="url(#soft)"/>
      <path d="${LENS}" fill="#e6f0f6" fill-opacity="0.04" stroke="${color}" stroke-width="${width}"/>
      <path d="M25 -9L38 -10M-23 -6C-27 -10 -30 -10 -33 -10" stroke="${color}" stroke-width="${width}"/>
      <path d="M-14 -18.6C-8 -19 8 -19 16 -18.4" stroke="#fff" stroke-width="${Math.max(0.25 * width, 0.6 / unit)}" opacity="${shine}"/>
    </g>`,
  ).join('')
}

function svg({ width, height }: RgbPicture, body: string): Buffer {
  return Buffer.from(`<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}">
    <defs><clipPath id="lens"><path d="${LENS}"/></clipPath>
    <filter id="soft" x="-50%" y="-50%" width="200%" height="200%"><feGaussianBlur stdDeviation="0.45"/></filter>
    <radialGradient id="fall"><stop offset="0" stop-color="#fff"/><stop offset="1" stop-color="#d8d8d8"/></radialGradient></defs>
    ${body}</svg>`)
}

async function over(picture: RgbPicture, body: string): Promise<RgbPicture> {
  const { data, width, height } = picture
  const raw = { width, height, channels: 3 } as const
  const out = await sharp(data, { raw })
    .composite([{ input: svg(picture, body) }])
    .removeAlpha()
    .raw()
    .toBuffer()
  return { data: out, width, height }
}

/** @param body white where all of the light is added @param color what is added, in linear light */
async function addLight(picture: RgbPicture, body: string, color: readonly number[]): Promise<RgbPicture> {
  const { width, height } = picture
  const mask = await sharp(svg(picture, body))
    .flatten({ background: '#000' })
    .extractChannel(0)
    .raw()
    .toBuffer()
  const data = picture.data.map((code, i) => {
    const share = (mask[Math.floor(i / 3)] as number) / 255
    return share === 0 ? code : encoded(linearLight(code) + share * (color[i % 3] as number))
  })
  return { data, width, height }
}

/** Code of linear light, clipped at white (IEC 61966-2-1). */
function encoded(light: number): number {
  const value = Math.min(1, light)
  return Math.round(255 * (value <= 0.0031308 ? 12.92 * value : 1.055 * value ** (1 / 2.4) - 0.055))
}
