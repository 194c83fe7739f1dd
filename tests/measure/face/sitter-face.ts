import { SITTERS } from '../../../examples/drawing/sitters.ts'
import type { RgbPicture } from '../../../src/imaging/rgb-picture.ts'
import { measureFace } from '../../../src/measure/face/face.ts'
import { findFaces, type LocatedFace } from '../../../src/measure/face/find-faces.ts'
import { loadFaceModel } from '../../../src/measure/face/networks/face-model.ts'
import type { Face } from '../../../src/measure/schema/measurements.ts'
import { drawnPortrait } from '../../drawn.ts'
import type { Rgb } from '../samples.ts'

export const WIDTH = 480
export const HEIGHT = 600

export interface SitterFace {
  readonly located: LocatedFace
  readonly face: Face
  /** Pixels a millimeter, with eyes 64 mm apart. */
  readonly mmPx: number
}

/** The face of a drawn sitter as the models find it: a mesh to paint known pictures under. */
export async function sitterFace(): Promise<SitterFace> {
  const sitter = SITTERS[3]
  if (!sitter) throw new Error('There is no sitter 3.')
  const { pixels } = await drawnPortrait(sitter.look, {
    widthPx: WIDTH,
    heightPx: HEIGHT,
    placement: { crownY: 0.08, chinY: 0.75 },
    backdrop: { color: 244 },
    key: { side: 'left', ratioStops: 0.4 },
  })
  const found = await findFaces(await loadFaceModel(), { data: pixels, width: WIDTH, height: HEIGHT })
  if (!found) throw new Error('The drawn sitter has no face.')
  const { face } = measureFace(found, WIDTH, HEIGHT, 1)
  return { located: found.largest, face, mmPx: (face.eyeDistancePx ?? Number.NaN) / 64 }
}

/** A picture of the size that the sitter was drawn in, painted pixel by pixel. */
export function painted(color: (x: number, y: number) => Rgb): RgbPicture {
  const data = new Uint8Array(3 * WIDTH * HEIGHT)
  for (let y = 0; y < HEIGHT; y++) {
    for (let x = 0; x < WIDTH; x++) data.set(color(x, y), 3 * (y * WIDTH + x))
  }
  return { data, width: WIDTH, height: HEIGHT }
}

/**
 * A picture painted by the offset from each iris, in mm.
 * @param atEye eye 0 is the left in the frame; undefined where the eye has no say
 */
export function paintedEyes(
  { located, mmPx }: SitterFace,
  atEye: (eye: number, x: number, y: number) => Rgb | undefined,
  elsewhere: (x: number, y: number) => Rgb,
): RgbPicture {
  return painted((x, y) => {
    for (const [eye, [irisX, irisY]] of located.irises.entries()) {
      const color = atEye(eye, (x - irisX) / mmPx, (y - irisY) / mmPx)
      if (color) return color
    }
    return elsewhere(x, y)
  })
}
