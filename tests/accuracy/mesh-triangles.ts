import { readNetwork } from '../../src/measure/networks/network-file.ts'

// The message GeometryPipelineMetadata of MediaPipe as protocol buffers encode it: of each field its number and kind of value.
const CANONICAL_MESH = 1
const INDEX_BUFFER = 4

/** Three corners of the face mesh each, of the canonical mesh that the package of the network packs beside it. */
export const MESH_TRIANGLES: readonly (readonly [number, number, number])[] = trianglesOf(
  await readNetwork({
    file: '@mediapipe/face_mesh/face_mesh_solution_packed_assets.data',
    part: {
      name: 'geometry_pipeline_metadata_landmarks.binarypb',
      script: '@mediapipe/face_mesh/face_mesh_solution_packed_assets_loader.js',
    },
  }),
)

function trianglesOf(message: Uint8Array): [number, number, number][] {
  const mesh = fieldsOf(message).find(({ field }) => field === CANONICAL_MESH)?.bytes
  const corners = fieldsOf(mesh ?? new Uint8Array()).flatMap(({ field, value }) =>
    field === INDEX_BUFFER ? [value] : [],
  )
  return Array.from({ length: corners.length / 3 }, (_, i) => [
    corners[3 * i] as number,
    corners[3 * i + 1] as number,
    corners[3 * i + 2] as number,
  ])
}

interface Field {
  readonly field: number
  /** Of a number. */
  readonly value: number
  /** Of a message. */
  readonly bytes: Uint8Array
}

function fieldsOf(message: Uint8Array): Field[] {
  const fields: Field[] = []
  let at = 0
  const varint = (): number => {
    for (let value = 0, unit = 1; ; unit *= 128) {
      const byte = message[at++] as number
      value += unit * (byte % 128)
      if (byte < 128) return value
    }
  }
  while (at < message.length) {
    const key = varint()
    const [field, kind] = [Math.floor(key / 8), key % 8]
    const value = kind === 5 ? 4 : varint()
    const length = kind === 0 ? 0 : value
    fields.push({ field, value, bytes: message.subarray(at, at + length) })
    at += length
  }
  return fields
}
