import { beforeAll, expect, test } from 'vitest'
import { measureFinish } from '../../../../src/measure/finish/finish.ts'
import { paintedEyes, type SitterFace, sitterFace } from '../../face/sitter-face.ts'
import type { Rgb } from '../../samples.ts'
import { blurred } from './drawn-eyes.ts'

let sitter: SitterFace
beforeAll(async () => {
  sitter = await sitterFace()
})

const SKIN: Rgb = [214, 168, 142]
const WHITE: Rgb = [255, 255, 255]

/** Light on the eyes: a disc or a pattern, by the offset from the iris in mm; undefined where nothing shines. */
type Light = (x: number, y: number) => Rgb | undefined

/** Whether a place lies on the frame of round spectacles, 2 mm thick: lights are reflected where there are lenses. */
function onFrame(x: number, y: number): boolean {
  const { irises } = sitter.located
  const [[leftX, leftY], [rightX]] = irises
  if (irises.some(([irisX, irisY]) => Math.abs(Math.hypot(x - irisX, y - irisY) / sitter.mmPx - 23) < 1))
    return true
  const [across, along] = [(x - (leftX + rightX) / 2) / sitter.mmPx, (y - leftY) / sitter.mmPx]
  return Math.abs(across) < 9 && Math.abs(along + 3) < 1
}

/** What is read of two painted eyes, the left and the right in the frame, behind spectacles or naked. */
async function focusOf(left: Light, right: Light, skin = SKIN, naked = false) {
  const atEye = (eye: number, x: number, y: number): Rgb | undefined => {
    const light = (eye === 0 ? left : right)(x, y)
    if (light && Math.abs(x) < 25) return light
    if (Math.hypot(x, y) < 1.5) return [8, 8, 8]
    if (Math.hypot(x, y) < 5.8) return [70, 50, 40]
    return (x / 13) ** 2 + (y / 5) ** 2 < 1 ? [205, 200, 195] : undefined
  }
  const picture = paintedEyes(sitter, atEye, (x, y) => (!naked && onFrame(x, y) ? [40, 32, 30] : skin))
  // Painted pixel by pixel its edges are steps, which no camera sees.
  const soft = await blurred(picture, naked ? 0.7 : 1)
  const whole = { ...soft, data: Buffer.from(soft.data), transparentShare: 0 }
  const { focus } = measureFinish(whole, sitter.located, sitter.face, ['focus'])
  if (!focus) throw new Error('The focus was not read.')
  return focus
}

const none: Light = () => undefined
const disc =
  (radius: number, color = WHITE): Light =>
  (x, y) =>
    Math.hypot(x, y - 7) < radius ? color : undefined
// Thinner than a rim: three tubes below the eye, and one above.
const tubes =
  (color: Rgb): Light =>
  (x, y) =>
    Math.abs(x) < 12 && [-8, 8, 11, 14].some((at) => Math.abs(y - at) < 0.5) ? color : undefined
const catchlights: Light = (x, y) =>
  Math.hypot(x - 1.5, y + 2) < 1.2 || Math.hypot(x + 1.5, y - 2) < 0.8 ? WHITE : undefined

test('naked eyes and eyes with two catchlights are read', async () => {
  for (const light of [none, catchlights]) {
    const { leftPx, rightPx, doubts } = await focusOf(light, light, SKIN, true)
    expect(leftPx).not.toBeNull()
    expect(rightPx).not.toBeNull()
    expect(doubts).toEqual([])
  }
})

test.each([
  ['a wide light', disc(8)],
  ['tubes as thin as rims', tubes([120, 240, 255])],
])('behind %s an eye is not read; the other speaks', async (_, light) => {
  expect(await focusOf(none, light)).toMatchObject({
    rightPx: null,
    confidence: sitter.face.confidence,
    doubts: [],
  })
  const { leftPx, rightPx, eyePx } = await focusOf(light, none)
  expect(leftPx).toBeNull()
  expect(eyePx).toBe(rightPx)
})

test('behind lights on both there is nothing to say', async () => {
  expect(await focusOf(disc(8), tubes([120, 240, 255]))).toMatchObject({
    eyePx: null,
    confidence: 0,
    doubts: ['eyes-behind-reflections'],
  })
})

test('a spot beside the eye leaves it to be read', async () => {
  const spot: Light = (x, y) => (Math.hypot(x - 14, y - 10) < 1.5 ? WHITE : undefined)
  expect((await focusOf(none, spot)).rightPx).not.toBeNull()
})

// In colored light a lens throws back the color of the skin, which is seen on one side by chance only.
test('in colored light one lens that reflects speaks for both', async () => {
  const blue: Rgb = [90, 110, 190]
  expect((await focusOf(none, none, blue)).eyePx).not.toBeNull()
  expect(await focusOf(none, disc(8), blue)).toMatchObject({
    leftPx: null,
    doubts: ['eyes-behind-reflections'],
  })
})

test('one eye behind a light and one without edges: both are told', async () => {
  const flat: Light = (x, y) => (Math.hypot(x, y) < 25 ? SKIN : undefined)
  expect((await focusOf(flat, disc(8))).doubts).toEqual(['eyes-behind-reflections', 'eyes-without-edges'])
})
