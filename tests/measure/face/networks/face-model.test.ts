import { describe, expect, test } from 'vitest'
import type { Frame } from '../../../../examples/drawing/frame.ts'
import { SITTERS } from '../../../../examples/drawing/sitters.ts'
import type { RgbPicture } from '../../../../src/imaging/rgb-picture.ts'
import { meshEyes } from '../../../../src/measure/face/irises/mesh-eyes.ts'
import { loadFaceModel } from '../../../../src/measure/face/networks/face-model.ts'
import { drawnPortrait } from '../../../drawn.ts'

const FRAME: Frame = {
  widthPx: 640,
  heightPx: 800,
  placement: { crownY: 0.09, chinY: 0.58 },
  backdrop: { color: 244 },
  key: { side: 'left', ratioStops: 0.5 },
}

function look(index: number) {
  const sitter = SITTERS[index]
  if (!sitter) throw new Error(`There is no sitter ${index}.`)
  return sitter.look
}
async function draw(index: number, change: Partial<Frame> = {}) {
  const { pixels, widthPx, heightPx, truth } = await drawnPortrait(look(index), { ...FRAME, ...change })
  const picture: RgbPicture = { data: pixels, width: widthPx, height: heightPx }
  const eyes = [truth.leftEye, truth.rightEye].map(({ x, y }) => [x * widthPx, y * heightPx] as const)
  return { picture, eyes, distance: truth.eyeDistancePx }
}

const CASES: readonly (readonly [string, number, () => ReturnType<typeof draw>])[] = [
  ['a sitter', 1, () => draw(0)],
  ['a dark sitter on gray', 1, () => draw(16, { backdrop: { color: 120 } })],
  ['one who leans', 1, () => draw(3, { tiltDeg: 18, placement: { crownY: 0.15, chinY: 0.6 } })],
  ['one cut by the frame', 1, () => draw(6, { placement: { crownY: -0.2, chinY: 0.7 } })],
  ['a small face', 1, () => draw(7, { placement: { crownY: 0.5, chinY: 0.6 } })],
  ['an odd little picture', 1, () => draw(9, { widthPx: 149, heightPx: 203 })],
  [
    'two faces',
    2,
    () =>
      draw(1, {
        placement: { crownY: 0.3, chinY: 0.75 },
        second: { look: look(8), eyeX: 0.82, eyeY: 0.25, headWidth: 0.24 },
      }),
  ],
]

// What is drawn is known.
test.each(CASES)('%s: all faces are found, the mesh with its eyes on the eyes', async (_, count, drawn) => {
  const { picture, eyes, distance } = await drawn()
  const faces = await (await loadFaceModel()).find(picture)
  expect(faces).toHaveLength(count)
  const off = faces.map(({ mesh }) => {
    const found = meshEyes(mesh)
    const apart = eyes.map(([x, y], eye) =>
      Math.hypot((found[eye]?.[0] ?? 0) - x, (found[eye]?.[1] ?? 0) - y),
    )
    return Math.max(...apart) / distance
  })
  expect(Math.min(...off)).toBeLessThan(0.08)
  for (const { score, box, mesh } of faces) {
    expect(score).toBeGreaterThan(0.6)
    expect(mesh).toHaveLength(468)
    const [left, top, width, height] = box
    expect(
      Math.min(left, top, picture.width - left - width, picture.height - top - height),
    ).toBeGreaterThanOrEqual(0)
  }
})

describe('fitted again', () => {
  test('where the square lay before makes little difference', async () => {
    const { picture, distance } = await draw(2)
    const model = await loadFaceModel()
    const [face] = await model.find(picture)
    if (!face) throw new Error('There is no face.')
    const shifted = { ...face, mesh: face.mesh.map(([x, y, z]) => [x + 0.1 * distance, y, z] as const) }
    const [own, other] = [await model.fitAgain(picture, face, 0), await model.fitAgain(picture, shifted, 0)]
    const off = own.mesh.map(([x, y], i) =>
      Math.hypot(x - (other.mesh[i]?.[0] ?? 0), y - (other.mesh[i]?.[1] ?? 0)),
    )
    expect(off.reduce((sum, one) => sum + one, 0) / off.length / distance).toBeLessThan(0.03)
  })
})

test('no face in noise, in one color, and in a picture of a pixel', async () => {
  const model = await loadFaceModel()
  const width = 320
  const noise = Uint8Array.from({ length: 3 * width * width }, (_, i) => (i * i * 31) % 251)
  for (const picture of [
    { data: noise, width, height: width },
    { data: new Uint8Array(3 * width * 200).fill(200), width, height: 200 },
    { data: Uint8Array.of(9, 99, 199), width: 1, height: 1 },
  ])
    expect(await model.find(picture)).toEqual([])
})
