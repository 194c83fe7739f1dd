import type { LocatedFace } from './find-faces.ts'
import type { MeshPoint } from './networks/face-model.ts'
import type { IrisCenter } from './networks/iris-model.ts'

/** The same face in pixels of a copy of the picture that is `factor` times as large. */
export function scaledFace(face: LocatedFace, factor: number): LocatedFace {
  const [x, y, width, height] = face.box
  const iris = ([x, y]: IrisCenter): IrisCenter => [x * factor, y * factor]
  return {
    ...face,
    box: [x * factor, y * factor, width * factor, height * factor],
    mesh: face.mesh.map(([x, y, z]): MeshPoint => [x * factor, y * factor, z * factor]),
    irises: [iris(face.irises[0]), iris(face.irises[1])],
  }
}
