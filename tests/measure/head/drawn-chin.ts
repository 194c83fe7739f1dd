import type { RgbPicture } from '../../../src/imaging/rgb-picture.ts'
import type { FaceLandmarks, FacePlace } from '../../../src/measure/face/face-axes.ts'

export type Color = readonly [red: number, green: number, blue: number]

const WIDTH = 400
const HEIGHT = 500
const EYES_Y = 180

/** A face whose mesh puts the chin `cell` x 100 px below the eyes, leaning by `leanDeg`. */
export function chinGeometry(cell = 1.5, leanDeg = 0): FaceLandmarks {
  const angle = (leanDeg * Math.PI) / 180
  const axis = { x: -Math.sin(angle), y: Math.cos(angle) }
  const midEyes = { x: WIDTH / 2, y: EYES_Y }
  const half = 0.28 * cell * 100
  return {
    leftEye: { x: midEyes.x - half * axis.y, y: midEyes.y + half * axis.x },
    rightEye: { x: midEyes.x + half * axis.y, y: midEyes.y - half * axis.x },
    midEyes,
    eyesError: { across: 0, down: 0 },
    eyeDistance: 2 * half,
    axis,
    meshChin: { x: midEyes.x + 100 * cell * axis.x, y: midEyes.y + 100 * cell * axis.y },
  }
}

/** Paints by place of the face in cells. */
export function painted(
  { midEyes, axis, meshChin }: FaceLandmarks,
  color: (place: FacePlace) => Color,
): RgbPicture {
  const cell = Math.hypot(meshChin.x - midEyes.x, meshChin.y - midEyes.y) / 100
  const data = new Uint8Array(3 * WIDTH * HEIGHT)
  for (let i = 0; i < WIDTH * HEIGHT; i++) {
    const dx = ((i % WIDTH) + 0.5 - midEyes.x) / cell
    const dy = (Math.floor(i / WIDTH) + 0.5 - midEyes.y) / cell
    data.set(color({ across: dx * axis.y - dy * axis.x, along: dx * axis.x + dy * axis.y }), 3 * i)
  }
  return { data, width: WIDTH, height: HEIGHT }
}
