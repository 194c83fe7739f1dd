import { beforeAll, describe, expect, test } from 'vitest'
import type { Frame } from '../../../../examples/drawing/frame.ts'
import { drawPortrait } from '../../../../examples/drawing/portrait.ts'
import { SITTERS } from '../../../../examples/drawing/sitters.ts'
import type { RgbPicture } from '../../../../src/imaging/rgb-picture.ts'
import { type FaceModel, loadFaceModel } from '../../../../src/measure/face/networks/face-model.ts'
import { type LibraryFace, libraryFaces } from '../library-faces.ts'

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
async function draw(index: number, change: Partial<Frame> = {}): Promise<RgbPicture> {
  const { pixels, widthPx, heightPx } = await drawPortrait(look(index), { ...FRAME, ...change })
  return { data: pixels, width: widthPx, height: heightPx }
}

const CASES: readonly (readonly [string, () => Promise<RgbPicture>])[] = [
  ['a sitter', () => draw(0)],
  ['a dark sitter on gray', () => draw(16, { backdrop: { color: 120 } })],
  ['one who leans', () => draw(3, { tiltDeg: 18, placement: { crownY: 0.15, chinY: 0.6 } })],
  ['one cut by the frame', () => draw(6, { placement: { crownY: -0.2, chinY: 0.7 } })],
  ['a small face', () => draw(7, { placement: { crownY: 0.5, chinY: 0.6 } })],
  ['an odd little picture', () => draw(9, { widthPx: 149, heightPx: 203 })],
  [
    'two faces',
    () =>
      draw(1, {
        placement: { crownY: 0.3, chinY: 0.75 },
        second: { look: look(8), eyeX: 0.82, eyeY: 0.25, headWidth: 0.24 },
      }),
  ],
]

// The reference: @vladmandic/human 3.3.6 runs the same networks by its own code.
describe('faces against the pipeline of the package that carries the models', () => {
  let model: FaceModel
  let library: (picture: RgbPicture) => Promise<LibraryFace[]>
  beforeAll(async () => {
    model = await loadFaceModel()
    library = await libraryFaces()
  })

  test.each(CASES)('%s', async (_, drawn) => {
    const picture = await drawn()
    const ours = await model.find(picture)
    const theirs = await library(picture)
    expect(theirs.length).toBeGreaterThan(0)
    expect(ours).toHaveLength(theirs.length)
    for (const [i, face] of ours.entries()) {
      const other = theirs[i] as LibraryFace
      expect(face.score).toBe(Math.min(other.boxScore, other.faceScore))
      expect(face.box).toEqual(other.box)
      // Both cut coordinates off to whole pixels: one in thousands falls to another side of that.
      const moved = face.mesh.flatMap((point, k) => point.filter((value, c) => value !== other.mesh[k]?.[c]))
      expect(moved.length).toBeLessThan(5)
    }
  })

  test('no face in noise, in one color, and in a picture of a pixel', async () => {
    const width = 320
    const noise = Uint8Array.from({ length: 3 * width * width }, (_, i) => (i * i * 31) % 251)
    const pictures = [
      { data: noise, width, height: width },
      { data: new Uint8Array(3 * width * 200).fill(200), width, height: 200 },
      { data: Uint8Array.of(9, 99, 199), width: 1, height: 1 },
    ]
    for (const picture of pictures) {
      expect(await model.find(picture)).toEqual([])
      expect(await library(picture)).toEqual([])
    }
  })
})
