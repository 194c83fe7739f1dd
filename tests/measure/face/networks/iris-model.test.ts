import { expect, test } from 'vitest'
import { drawPortrait } from '../../../../examples/drawing/portrait.ts'
import { SITTERS } from '../../../../examples/drawing/sitters.ts'
import type { RgbPicture } from '../../../../src/imaging/rgb-picture.ts'
import type { MeshPoint } from '../../../../src/measure/face/networks/face-model.ts'
import { loadIrisModel } from '../../../../src/measure/face/networks/iris-model.ts'

const WIDTH = 600
const HEIGHT = 750
// Corners of the eyes in the mesh, left to right in the frame.
const CORNERS = [33, 133, 362, 263] as const

interface Size {
  readonly width: number
  readonly height: number
}

/** A drawn sitter, and a mesh of nothing but the corners of the eyes, about as far apart as on a face. */
async function sitter(index: number, { width, height }: Size = { width: WIDTH, height: HEIGHT }) {
  const one = SITTERS[index]
  if (!one) throw new Error(`There is no sitter ${index}.`)
  const { pixels, truth } = await drawPortrait(one.look, {
    widthPx: width,
    heightPx: height,
    placement: { crownY: 0.08, chinY: 0.7 },
    backdrop: { color: 244 },
    key: { side: 'left', ratioStops: 0.3 },
  })
  const eyes = [truth.leftEye, truth.rightEye].map(({ x, y }) => [x * width, y * height] as const)
  const half = 0.22 * truth.eyeDistancePx
  const mesh = Array.from({ length: 468 }, (): MeshPoint => [0, 0, 0])
  for (const [i, corner] of CORNERS.entries()) {
    const [x, y] = eyes[i < 2 ? 0 : 1] as readonly [number, number]
    mesh[corner] = [x + (i % 2 === 0 ? -half : half), y, 0]
  }
  return {
    picture: { data: pixels, width, height },
    mesh,
    eyes,
    distance: truth.eyeDistancePx,
  }
}

test.each([0, 5, 11, 17, 20])('finds both irises of sitter %i where they are drawn', async (index) => {
  const { picture, mesh, eyes, distance } = await sitter(index)
  const irises = await (await loadIrisModel()).find(picture, mesh)
  for (const [i, [x, y]] of irises.entries()) {
    const [trueX, trueY] = eyes[i] as readonly [number, number]
    expect(Math.hypot(x - trueX, y - trueY) / distance).toBeLessThan(0.03)
  }
})

// Each eye is shown to the network as the other one's mirror image, so nothing but the squares' whole pixels may differ. The
// small picture's squares are enlarged for the network, the large one's reduced.
test.each([
  [600, 750],
  [180, 225],
])('finds them in a mirrored picture of %i x %i px at the mirrored places', async (width, height) => {
  const { picture, mesh } = await sitter(4, { width, height })
  const model = await loadIrisModel()
  const flipped = mesh.map(([x, y, z]): MeshPoint => [width - x, y, z])
  for (const [a, b] of [
    [33, 263],
    [133, 362],
  ] as const) {
    const kept = flipped[a] as MeshPoint
    flipped[a] = flipped[b] as MeshPoint
    flipped[b] = kept
  }
  const [left, right] = await model.find(picture, mesh)
  const [otherLeft, otherRight] = await model.find(mirrored(picture), flipped)
  // A third of a px to either side; an enlarged square that were off by half a px of the network's would make 0.6 px.
  expect(Math.abs(width - left[0] - otherRight[0])).toBeLessThan(0.33)
  expect(Math.abs(width - right[0] - otherLeft[0])).toBeLessThan(0.33)
})

test('reads eyes that lie partly or wholly outside the picture as gray there', async () => {
  const { picture, mesh } = await sitter(4)
  const model = await loadIrisModel()
  for (const shift of [-WIDTH, WIDTH]) {
    const away = mesh.map(([x, y, z]): MeshPoint => [x + shift, y, z])
    for (const [x, y] of await model.find(picture, away)) {
      expect(Number.isFinite(x) && Number.isFinite(y)).toBe(true)
      expect(shift < 0 ? x : WIDTH - x).toBeLessThan(0)
    }
  }
})

function mirrored({ data, width, height }: RgbPicture): RgbPicture {
  const out = new Uint8Array(data.length)
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const from = 3 * (y * width + x)
      out.set(data.subarray(from, from + 3), 3 * (y * width + width - 1 - x))
    }
  }
  return { data: out, width, height }
}
