import { expect, test } from 'vitest'
import { SITTERS } from '../../../../examples/drawing/sitters.ts'
import type { RgbPicture } from '../../../../src/imaging/rgb-picture.ts'
import { findIrises } from '../../../../src/measure/face/irises/find-irises.ts'
import { meshEyes } from '../../../../src/measure/face/irises/mesh-eyes.ts'
import type { MeshPoint } from '../../../../src/measure/face/networks/face-model.ts'
import { drawnPortrait } from '../../../drawn.ts'

// Of the eye at the left of the frame and of the one at the right: corners from left to right, upper and lower lid.
const EYES = [
  [33, 133, 159, 145],
  [362, 263, 386, 374],
] as const
type Place = readonly [x: number, y: number]

/** A mesh of nothing but eyes: 0.44 of their distance wide and 0.16 high, their middles as far below the irises as meshes have them. */
function meshOf([left, right]: readonly [Place, Place]): MeshPoint[] {
  const distance = right[0] - left[0]
  const mesh = Array.from({ length: 468 }, (): MeshPoint => [0, 0, 0])
  for (const [eye, [x, y]] of [left, right].entries()) {
    const [from = 0, to = 0, upper = 0, lower = 0] = EYES[eye] ?? []
    const middle = y + 0.026 * distance
    mesh[from] = [x - 0.22 * distance, middle, 0]
    mesh[to] = [x + 0.22 * distance, middle, 0]
    mesh[upper] = [x, middle - 0.08 * distance, 0]
    mesh[lower] = [x, middle + 0.08 * distance, 0]
  }
  return mesh
}

async function sitter(index: number, width = 600) {
  const one = SITTERS[index]
  if (!one) throw new Error(`There is no sitter ${index}.`)
  const height = 1.25 * width
  const { pixels, truth } = await drawnPortrait(one.look, {
    widthPx: width,
    heightPx: height,
    placement: { crownY: 0.08, chinY: 0.7 },
    backdrop: { color: 244 },
    key: { side: 'left', ratioStops: 0.3 },
  })
  const [left, right] = [truth.leftEye, truth.rightEye].map(({ x, y }): Place => [x * width, y * height])
  if (!left || !right) throw new Error('There are no eyes.')
  const picture: RgbPicture = { data: pixels, width, height }
  return { picture, eyes: [left, right] as const, distance: truth.eyeDistancePx }
}

const moved = (eyes: readonly [Place, Place], x: number, y: number): [Place, Place] => [
  [eyes[0][0] + x, eyes[0][1] + y],
  [eyes[1][0] + x, eyes[1][1] + y],
]

// The mesh's eyes are 2 % of their distance off in the mean and 6 at most, on photographs.
test.each([
  [0, 0, 0],
  [5, 0.03, -0.02],
  [11, -0.04, 0.02],
  [17, 0, 0.04],
  [20, -0.02, -0.04],
])('finds the irises of sitter %i beside where the mesh has them', async (index, x, y) => {
  const { picture, eyes, distance } = await sitter(index)
  const { irises, irisesSeen } = findIrises(picture, meshOf(moved(eyes, x * distance, y * distance)))
  expect(irisesSeen).toBe(true)
  for (const [eye, [foundX, foundY]] of irises.entries()) {
    const [trueX, trueY] = eyes[eye] as Place
    expect(Math.hypot(foundX - trueX, foundY - trueY) / distance).toBeLessThan(0.015)
  }
})

test.each([600, 180])('finds them in a mirrored picture %i px wide at the mirrored places', async (width) => {
  const { picture, eyes, distance } = await sitter(4, width)
  const mirror = ([x, y]: Place): Place => [width - x, y]
  const { irises: own } = findIrises(picture, meshOf(eyes))
  const { irises: other } = findIrises(mirrored(picture), meshOf([mirror(eyes[1]), mirror(eyes[0])]))
  for (const eye of [0, 1] as const) {
    const [x, y] = mirror(other[1 - eye] as Place)
    expect(Math.hypot(x - own[eye][0], y - own[eye][1]) / distance).toBeLessThan(0.005)
  }
})

test('without an iris to see, the mesh tells where the eyes are', async () => {
  const { picture, eyes } = await sitter(4)
  const skin = { ...picture, data: new Uint8Array(picture.data.length).fill(150) }
  const mesh = meshOf(eyes)
  expect(findIrises(skin, mesh)).toEqual({ irises: meshEyes(mesh), irisesSeen: false })
  for (const away of [-2, 2]) {
    const { irises, irisesSeen } = findIrises(picture, meshOf(moved(eyes, away * picture.width, 0)))
    expect(irisesSeen).toBe(false)
    expect(irises.flat().every(Number.isFinite)).toBe(true)
  }
})

test.each([0, 1] as const)(
  'of two eyes that look aside, one that cannot be read, %i, stands as far aside as the other',
  async (hidden) => {
    const { picture, eyes, distance } = await sitter(4)
    const mesh = meshOf(moved(eyes, 0.095 * distance, 0))
    const { irises, irisesSeen } = findIrises(covered(picture, eyes[hidden], 0.3 * distance), mesh)
    expect(irisesSeen).toBe(false)
    for (const [eye, [x]] of irises.entries())
      expect(Math.abs(x - (eyes[eye] as Place)[0]) / distance).toBeLessThan(0.02)
  },
)

/** The same with a gray square over a place. */
function covered({ data, width, height }: RgbPicture, [x, y]: Place, reach: number): RgbPicture {
  const out = Uint8Array.from(data)
  for (let row = Math.round(y - reach); row <= y + reach; row++)
    out.fill(150, 3 * (row * width + Math.round(x - reach)), 3 * (row * width + Math.round(x + reach)))
  return { data: out, width, height }
}

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
