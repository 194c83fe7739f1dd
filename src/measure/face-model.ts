import { readFile } from 'node:fs/promises'
import { createRequire } from 'node:module'
import { dirname, join } from 'node:path'
import { fileURLToPath, pathToFileURL } from 'node:url'
import { type IrisCenter, loadIrisModel, type Tensor, type Tensors } from './iris-model.ts'
import type { RgbPicture } from './rgb-picture.ts'

/** A point of the face mesh in pixels of the picture that was searched: x, y, and depth on the same scale. */
export type MeshPoint = readonly [x: number, y: number, z: number]

/** One face as the models see it, in pixels of the picture that was searched. */
export interface ModelFace {
  readonly score: number
  readonly box: readonly [x: number, y: number, width: number, height: number]
  /** 468 points. */
  readonly mesh: readonly MeshPoint[]
  /** Radians. */
  readonly pitch: number
  readonly yaw: number
}

export interface FaceModel {
  find(picture: RgbPicture): Promise<ModelFace[]>
  /** Iris centers of one of the faces found, the left in the frame first, in pixels of the picture. */
  findIrises(picture: RgbPicture, face: ModelFace): Promise<readonly [IrisCenter, IrisCenter]>
}

// The part of the library's interface that is used here.
interface LibraryFace {
  readonly boxScore: number
  readonly faceScore: number
  readonly box: [number, number, number, number]
  readonly mesh: MeshPoint[]
  readonly rotation: { readonly angle: { readonly pitch: number; readonly yaw: number } } | null
}
interface Library {
  load(): Promise<void>
  detect(input: Tensor): Promise<{ readonly error: string | null; readonly face: LibraryFace[] }>
  readonly tf: Tensors & {
    tensor3d(values: Float32Array, shape: [number, number, number], type: 'float32'): Tensor
  }
}
interface LibraryModule {
  readonly default: new (config: object) => Library
}

const MAX_FACES = 8
// Faces that the detector gives less than this are not reported at all.
const LEAST_SCORE = 0.3

let loading: Promise<FaceModel> | undefined

/**
 * The face detector, mesh and iris models of @vladmandic/human, loaded once a process from its package.
 * Nothing else of it is loaded: no recognition, no embeddings, no age, gender or emotion.
 * @throws Error when the package or its models are not installed
 */
export function loadFaceModel(): Promise<FaceModel> {
  loading ??= load()
  return loading
}

async function load(): Promise<FaceModel> {
  // Its `exports` map is malformed, so files are loaded by path from the package's folder.
  const require = createRequire(import.meta.url)
  const home = dirname(dirname(require.resolve('@vladmandic/human')))
  const { default: Human } = require(join(home, 'dist', 'human.node-wasm.js')) as LibraryModule
  const wasm = dirname(require.resolve('@tensorflow/tfjs-backend-wasm'))
  const models = pathToFileURL(join(home, 'models')).href
  const human = new Human(configuration(`${models}/`, `${wasm}/`))
  await withFilesOnly(models, () => human.load())
  const irises = await loadIrisModel(human.tf, join(home, 'models'))
  let queue: Promise<unknown> = Promise.resolve()
  return {
    find(picture) {
      // The library keeps state between the steps of one call: one picture at a time.
      const found = queue.then(() => search(human, picture))
      queue = found.catch(() => undefined)
      return found
    },
    findIrises: (picture, { mesh }) => irises.find(picture, mesh),
  }
}

async function search(human: Library, picture: RgbPicture): Promise<ModelFace[]> {
  const tensor = human.tf.tensor3d(
    Float32Array.from(picture.data),
    [picture.height, picture.width, 3],
    'float32',
  )
  try {
    const result = await human.detect(tensor)
    if (result.error) throw new Error(`The face models failed: ${result.error}`)
    return result.face.map((face) => ({
      score: Math.min(face.boxScore, face.faceScore),
      box: face.box,
      mesh: face.mesh,
      pitch: face.rotation?.angle.pitch ?? 0,
      yaw: face.rotation?.angle.yaw ?? 0,
    }))
  } finally {
    human.tf.dispose(tensor)
  }
}

function configuration(modelBasePath: string, wasmPath: string): object {
  const off = { enabled: false }
  return {
    backend: 'wasm',
    wasmPath,
    modelBasePath,
    debug: false,
    // Without this a result could depend on the picture before.
    cacheSensitivity: 0,
    filter: off,
    gesture: off,
    body: off,
    hand: off,
    object: off,
    segmentation: off,
    // Its own `rotation` turns the crop by the line from nose to mouth, which leans when a head is turned, and
    // so puts the eyes of turned heads wrong: tilted faces are levelled in find-faces.ts instead.
    face: {
      enabled: true,
      detector: {
        enabled: true,
        rotation: false,
        maxDetected: MAX_FACES,
        minConfidence: LEAST_SCORE,
        return: false,
      },
      mesh: { enabled: true },
      iris: off,
      attention: off,
      emotion: off,
      description: off,
      antispoof: off,
      liveness: off,
    },
  }
}

/** The library loads its models with `fetch`: while it does, fetch reads files below `folder` and nothing else. */
async function withFilesOnly(folder: string, work: () => Promise<void>): Promise<void> {
  const before = globalThis.fetch
  globalThis.fetch = async (input) => {
    const url = String(input instanceof Request ? input.url : input)
    if (!url.startsWith(`${folder}/`))
      throw new Error(`Refused to load ${url}: the face models come from their package only.`)
    return new Response(new Uint8Array(await readFile(fileURLToPath(url))))
  }
  try {
    await work()
  } finally {
    globalThis.fetch = before
  }
}
