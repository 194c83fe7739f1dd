import sharp from 'sharp'
import { describe, expect, test } from 'vitest'
import type { Frame } from '../../examples/drawing/frame.ts'
import { SITTERS } from '../../examples/drawing/sitters.ts'
import type { CropAdvice } from '../../src/framing/advice.ts'
import { solveCrop } from '../../src/framing/crop.ts'
import { drawnPortrait } from '../drawn.ts'
import { type Asked, askFor, expectPass } from './cases.ts'
import { measured, type Picture } from './measured-picture.ts'

// From pixels to pixels: a drawn sitter is measured, the crop is solved and cut, and what was cut is measured anew.

const PRINT: Asked = {
  'aspect-ratio': '4:5',
  'pixel-size': { width: 256, height: 320 },
  headroom: { min: 6, max: 12 },
  'eye-line': { min: 30, max: 45 },
  'head-height': { min: 42, max: 52 },
  centering: { max: 3 },
}
const WEB: Asked = {
  'aspect-ratio': '1:1',
  headroom: { min: 4, max: 10 },
  'eye-line': { min: 33, max: 45 },
  centering: { target: 0, tolerance: 2 },
}
const CLOSE: Asked = {
  'aspect-ratio': '3:4',
  'head-height': { min: 58, max: 66 },
  headroom: { target: 6, tolerance: 2 },
}

const WIDE: Frame = {
  widthPx: 576,
  heightPx: 640,
  placement: { crownY: 0.2, chinY: 0.58 },
  backdrop: { color: 236 },
  key: { side: 'left', ratioStops: 0.6 },
  noise: 0.6,
}

async function cut({ data, width, height }: Picture, advice: CropAdvice): Promise<Picture> {
  if (!('crop' in advice)) throw new Error(`No crop: ${JSON.stringify(advice)}`)
  const { leftPx: left, topPx: top, widthPx, heightPx } = advice.crop
  const region = { left, top, width: widthPx, height: heightPx }
  const cropped = sharp(data, { raw: { width, height, channels: 3 } }).extract(region)
  const { scaleTo } = advice
  const sized = scaleTo ? cropped.resize(scaleTo.widthPx, scaleTo.heightPx, { fit: 'fill' }) : cropped
  const { data: pixels, info } = await sized.raw().toBuffer({ resolveWithObject: true })
  return { data: pixels, width: info.width, height: info.height }
}

const picture = async (family: string, frame: Partial<Frame>): Promise<Picture> => {
  const sitter = SITTERS.find((each) => each.family === family)
  if (!sitter) throw new Error(`No sitter of the family name ${family}.`)
  const { pixels, widthPx, heightPx } = await drawnPortrait(sitter.look, { ...WIDE, ...frame })
  return { data: pixels, width: widthPx, height: heightPx }
}

describe('a cut picture, measured anew, passes what it was cut for', () => {
  test.each<[family: string, asked: string, options: Asked, frame: Partial<Frame>]>([
    ['Adeyemi', 'print', PRINT, {}],
    ['Dhillon', 'print', PRINT, { placement: { crownY: 0.12, chinY: 0.56 }, offsetX: 0.12 }],
    ['Farouk', 'print', PRINT, { backdrop: { color: 119 }, offsetX: -0.1 }],
    ['Haile', 'print', PRINT, { tiltDeg: 3 }],
    ['Lund', 'print', PRINT, { placement: { crownY: 0.25, chinY: 0.6 }, widthPx: 704 }],
    ['Mokoena', 'web', WEB, {}],
    ['Nair', 'web', WEB, { placement: { crownY: 0.08, chinY: 0.5 }, offsetX: 0.08 }],
    ['Okoro', 'web', WEB, { backdrop: { color: 200 }, widthPx: 768 }],
    ['Silva', 'close', CLOSE, {}],
    ['Tamati', 'close', CLOSE, { offsetX: 0.1 }],
    ['Wyn', 'close', CLOSE, { placement: { crownY: 0.1, chinY: 0.6 } }],
  ])('%s, %s', async (family, _, asked, frame) => {
    const uncropped = await picture(family, frame)
    const before = await measured(uncropped)
    const advice = solveCrop(before, askFor(asked))
    const after = await measured(await cut(uncropped, advice))
    expectPass(after, asked)
    expect(after.head?.doubts).toEqual([])
  })
})

test('a stand at the edge is left out', async () => {
  const uncropped = await picture('Pham', {})
  const stand = { left: 0, top: 64, right: 38, bottom: 640 }
  for (let y = stand.top; y < stand.bottom; y++)
    uncropped.data.fill(30, 3 * y * uncropped.width, 3 * (y * uncropped.width + stand.right))
  const advice = solveCrop(await measured(uncropped), askFor({ ...WEB, 'backdrop-edge': true }), [stand])
  const cropped = await cut(uncropped, advice)
  expectPass(await measured(cropped), WEB)
  // The stand is the only thing so dark at the left edge.
  const column = Array.from(
    { length: cropped.height / 2 },
    (_, y) => cropped.data[3 * y * cropped.width] ?? 0,
  )
  expect(Math.min(...column)).toBeGreaterThan(200)
})
