import sharp from 'sharp'
import { turnedBy } from '../../framing/turned.ts'
import type { Master } from './decode.ts'
import { wordsOf } from './words.ts'

/**
 * A master turned about its middle by so many degrees, clockwise, so that crops are told in px of the canvas that holds it (framing/turned.ts).
 * What it does not cover is black, and no crop reaches there. It is read between its pixels by cubic curves.
 */
export async function turnedMaster(master: Master, deg: number): Promise<Master> {
  const { pixels, widthPx, heightPx, bits } = master
  const angle = (deg * Math.PI) / 180
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)]
  const { canvas } = turnedBy(deg, { widthPx, heightPx })
  const turn = (x: number, y: number) => ({ x: x * cos - y * sin, y: x * sin + y * cos })
  // From the turned index of a pixel to that on the canvas: middles meet, and indices are half a px before the centers of pixels.
  const middle = turn((1 - widthPx) / 2, (1 - heightPx) / 2)
  const shift = { x: middle.x + (canvas.widthPx - 1) / 2, y: middle.y + (canvas.heightPx - 1) / 2 }
  const [odx, ody] = [shift.x - Math.floor(shift.x), shift.y - Math.floor(shift.y)]
  // The library cuts off all before the least corner, rounded, and displaces then.
  const corners = [turn(0, 0), turn(widthPx, 0), turn(0, heightPx), turn(widthPx, heightPx)]
  const least = {
    x: Math.round(Math.min(...corners.map(({ x }) => x))),
    y: Math.round(Math.min(...corners.map(({ y }) => y))),
  }
  const raw = { width: widthPx, height: heightPx, channels: 3 as const }
  const { data, info } = await sharp(bits === 16 ? wordsOf(pixels) : pixels, { raw, limitInputPixels: false })
    .affine([cos, -sin, sin, cos], { interpolator: 'bicubic', background: 'black', odx, ody })
    .toColourspace(bits === 16 ? 'rgb16' : 'srgb')
    .raw({ depth: bits === 16 ? 'ushort' : 'uchar' })
    .toBuffer({ resolveWithObject: true })
  const origin = { x: -(least.x + Math.floor(shift.x)), y: -(least.y + Math.floor(shift.y)) }
  return { ...master, pixels: data, widthPx: info.width, heightPx: info.height, origin }
}
