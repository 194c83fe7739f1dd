import { readFile } from 'node:fs/promises'
import { createRequire } from 'node:module'
import { dirname, join } from 'node:path'
import { fileURLToPath, pathToFileURL } from 'node:url'
import { type Tensor3D, tensor3d } from '@tensorflow/tfjs-core'
import type { RgbPicture } from '../../../src/imaging/rgb-picture.ts'
import type { MeshPoint } from '../../../src/measure/face/networks/face-model.ts'

/** A face as the pipeline of @vladmandic/human tells it. */
export interface LibraryFace {
  readonly boxScore: number
  readonly faceScore: number
  readonly box: readonly [number, number, number, number]
  readonly mesh: readonly MeshPoint[]
}
interface Library {
  load(): Promise<void>
  detect(input: Tensor3D): Promise<{ readonly error: string | null; readonly face: LibraryFace[] }>
}

const require = createRequire(import.meta.url)
const home = dirname(dirname(require.resolve('@vladmandic/human')))
const models = `${pathToFileURL(join(home, 'models')).href}/`
const wasm = `${dirname(require.resolve('@tensorflow/tfjs-backend-wasm'))}/`
const off = { enabled: false }

/**
 * The pipeline of @vladmandic/human 3.3.6, the reference for ours: the same networks, fed and read by its own code.
 * Only its detector and mesh are loaded.
 */
export async function libraryFaces(): Promise<(picture: RgbPicture) => Promise<LibraryFace[]>> {
  const { default: Pipeline } = require(join(home, 'dist', 'human.node-wasm.js')) as {
    default: new (config: object) => Library
  }
  const library = new Pipeline({
    backend: 'wasm',
    wasmPath: wasm,
    modelBasePath: models,
    debug: false,
    cacheSensitivity: 0,
    filter: off,
    gesture: off,
    body: off,
    hand: off,
    object: off,
    segmentation: off,
    face: {
      enabled: true,
      detector: { enabled: true, rotation: false, maxDetected: 8, minConfidence: 0.3, return: false },
      mesh: { enabled: true },
      iris: off,
      attention: off,
      emotion: off,
      description: off,
      antispoof: off,
      liveness: off,
    },
  })
  await withFilesOnly(() => library.load())
  return async ({ data, width, height }) => {
    const input = tensor3d(new Float32Array(data), [height, width, 3])
    const { error, face } = await library.detect(input)
    input.dispose()
    if (error) throw new Error(error)
    return face
  }
}

/** It loads its models with `fetch`: meanwhile, fetch reads their files and nothing else. */
async function withFilesOnly(work: () => Promise<void>): Promise<void> {
  const before = globalThis.fetch
  globalThis.fetch = async (input) => {
    const url = String(input instanceof Request ? input.url : input)
    if (!url.startsWith(models)) throw new Error(`${url} is no model of the package.`)
    return new Response(new Uint8Array(await readFile(fileURLToPath(url))))
  }
  try {
    await work()
  } finally {
    globalThis.fetch = before
  }
}
