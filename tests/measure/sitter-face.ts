import { drawPortrait } from '../../examples/drawing/portrait.ts'
import { SITTERS } from '../../examples/drawing/sitters.ts'
import { measureFace } from '../../src/measure/face.ts'
import { loadFaceModel } from '../../src/measure/face-model.ts'
import { findFaces, type LocatedFace } from '../../src/measure/find-faces.ts'
import type { Face } from '../../src/measure/measurements.ts'
import type { RgbPicture } from '../../src/measure/rgb-picture.ts'
import type { Rgb } from './samples.ts'

export const WIDTH = 480
export const HEIGHT = 600

/** The face of a drawn sitter as the models find it: a mesh to paint known pictures under. */
export async function sitterFace(): Promise<{ readonly located: LocatedFace; readonly face: Face }> {
  const sitter = SITTERS[3]
  if (!sitter) throw new Error('There is no sitter 3.')
  const { pixels } = await drawPortrait(sitter.look, {
    widthPx: WIDTH,
    heightPx: HEIGHT,
    placement: { crownY: 0.08, chinY: 0.75 },
    backdrop: { color: 244 },
    key: { side: 'left', ratioStops: 0.4 },
  })
  const found = await findFaces(await loadFaceModel(), { data: pixels, width: WIDTH, height: HEIGHT })
  if (!found) throw new Error('The drawn sitter has no face.')
  return { located: found.largest, face: measureFace(found, WIDTH, HEIGHT, 1).face }
}

/** A picture of the size that the sitter was drawn in, painted pixel by pixel. */
export function painted(color: (x: number, y: number) => Rgb): RgbPicture {
  const data = new Uint8Array(3 * WIDTH * HEIGHT)
  for (let y = 0; y < HEIGHT; y++) {
    for (let x = 0; x < WIDTH; x++) data.set(color(x, y), 3 * (y * WIDTH + x))
  }
  return { data, width: WIDTH, height: HEIGHT }
}
