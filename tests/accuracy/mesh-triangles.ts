import { createRequire } from 'node:module'
import { dirname, join } from 'node:path'

/** Three corners of the face mesh each, as @vladmandic/human 3.3.6, the package that carries the mesh, lists them. */
export const MESH_TRIANGLES: readonly (readonly [number, number, number])[] = meshTriangles()

function meshTriangles(): [number, number, number][] {
  const require = createRequire(import.meta.url)
  const home = dirname(dirname(require.resolve('@vladmandic/human')))
  const { default: Package } = require(join(home, 'dist', 'human.node-wasm.js')) as {
    default: new (config: object) => { readonly faceTriangulation: readonly number[] }
  }
  const corners = new Package({ backend: 'wasm', debug: false }).faceTriangulation
  return Array.from({ length: corners.length / 3 }, (_, i) => [
    corners[3 * i] as number,
    corners[3 * i + 1] as number,
    corners[3 * i + 2] as number,
  ])
}
