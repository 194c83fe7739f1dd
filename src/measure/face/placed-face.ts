import type { PicturePart } from '../../imaging/picture-part.ts'
import type { FaceGeometry, Pixel } from './face-axes.ts'
import type { LocatedFace } from './find-faces.ts'
import type { Place } from './irises/mesh-eyes.ts'
import type { MeshPoint } from './networks/face-model.ts'

/** What was found of a face, in pixels of one copy of the picture. */
export interface PlacedFace {
  /** Of that copy, px. */
  readonly width: number
  readonly located: LocatedFace
  readonly geometry: FaceGeometry
}

/**
 * The same in pixels of another copy of the picture. Copies differ in nothing but their size, and pixels are counted from
 * the top left corner, so one factor leads from each to each.
 */
export function inPixelsOf(copy: { readonly width: number }, face: PlacedFace): PlacedFace {
  const factor = copy.width / face.width
  return {
    width: copy.width,
    located: scaledFace(face.located, factor),
    geometry: scaledGeometry(face.geometry, factor),
  }
}

export function scaledFace(face: LocatedFace, factor: number): LocatedFace {
  const [x, y, width, height] = face.box
  const iris = ([x, y]: Place): Place => [x * factor, y * factor]
  return {
    ...face,
    box: [x * factor, y * factor, width * factor, height * factor],
    mesh: face.mesh.map(([x, y, z]): MeshPoint => [x * factor, y * factor, z * factor]),
    irises: [iris(face.irises[0]), iris(face.irises[1])],
  }
}

/** The face in pixels of a part of the picture that it is placed in. */
export function shiftedFace(
  face: LocatedFace,
  { left, top }: Pick<PicturePart, 'left' | 'top'>,
): LocatedFace {
  const [x, y, width, height] = face.box
  const iris = ([x, y]: Place): Place => [x - left, y - top]
  return {
    ...face,
    box: [x - left, y - top, width, height],
    mesh: face.mesh.map(([x, y, z]): MeshPoint => [x - left, y - top, z]),
    irises: [iris(face.irises[0]), iris(face.irises[1])],
  }
}

function scaledGeometry(geometry: FaceGeometry, factor: number): FaceGeometry {
  const point = ({ x, y }: Pixel): Pixel => ({ x: x * factor, y: y * factor })
  return {
    leftEye: point(geometry.leftEye),
    rightEye: point(geometry.rightEye),
    midEyes: point(geometry.midEyes),
    eyesError: { across: geometry.eyesError.across * factor, down: geometry.eyesError.down * factor },
    eyeDistance: geometry.eyeDistance * factor,
    axis: geometry.axis,
    chin: point(geometry.chin),
    chinError: geometry.chinError * factor,
  }
}
