import { readFile } from 'node:fs/promises'
import { createRequire } from 'node:module'
import { dirname, join } from 'node:path'

/** A neural network that reads pictures. */
export interface GraphModel {
  /**
   * Runs the network; the answers stand in the order of the outputs that were asked for at loading.
   * @param values the input, row by row, channels interleaved
   * @param shape how many pictures, rows, columns and channels it holds
   */
  run(values: Float32Array, shape: [number, number, number, number]): Float32Array[]
}

/** The parts of a TensorFlow.js model.json that are used here. */
interface Manifest {
  readonly modelTopology: object
  readonly weightsManifest: readonly {
    readonly paths: readonly string[]
    readonly weights: WeightSpec[]
  }[]
}
type WeightSpec = import('@tensorflow/tfjs-core').io.WeightsManifestEntry

const require = createRequire(import.meta.url)

let starting: ReturnType<typeof start> | undefined

/**
 * Loads a network from the models that the package `@vladmandic/human` carries. It runs in the thread that calls it, on
 * WebAssembly with SIMD where the processor has that: threads can each load their own.
 * @param name of its file, without the ending
 * @param outputs nodes of its graph to compute, by name; what they don't need is never run
 * @throws Error when a file is missing, or WebAssembly does not start
 */
export async function loadModel(name: string, outputs: readonly string[]): Promise<GraphModel> {
  starting ??= start()
  const { tensor, loadGraphModel } = await starting
  const graph = await loadGraphModel({ load: () => artifacts(name) })
  return {
    run(values, shape) {
      const input = tensor(values, shape, 'float32')
      const answers = [graph.execute(input, [...outputs])].flat()
      const read = answers.map((answer) => answer.dataSync<'float32'>())
      for (const used of [input, ...answers]) used.dispose()
      return read
    },
  }
}

// The types of Node.js leave it to those of browsers.
declare const WebAssembly: {
  readonly Memory: new (pages: { readonly initial: number; readonly maximum: number }) => object
}

/** Most memory of the backend, in pages of 64 KiB. @source tfjs-backend-wasm 4.22.0: built with 2 GiB at most. */
const MOST_PAGES = 32_768

/**
 * The library is loaded when the first network is: most of what a command does needs none. It is required, since to
 * import it Node first searches megabytes of it for the names it exports: 200 ms of the 550 that a start then takes.
 */
async function start() {
  const { setBackend, tensor } = require('@tensorflow/tfjs-core') as typeof import('@tensorflow/tfjs-core')
  require('@tensorflow/tfjs-backend-wasm')
  // The backend asks for it in a way that tells nobody why it fails, and prints that.
  void new WebAssembly.Memory({ initial: 1, maximum: MOST_PAGES })
  const { loadGraphModel } =
    require('@tensorflow/tfjs-converter') as typeof import('@tensorflow/tfjs-converter')
  if (!(await setBackend('wasm')))
    throw new Error('The face models could not be started: they need a Node.js with WebAssembly.')
  return { tensor, loadGraphModel }
}

async function artifacts(name: string) {
  // The package's `exports` map is malformed, so its files are read by path from its folder.
  const home = dirname(dirname(require.resolve('@vladmandic/human')))
  const read = (file: string) => readFile(join(home, 'models', file))
  const { modelTopology, weightsManifest } = JSON.parse(String(await read(`${name}.json`))) as Manifest
  const parts = await Promise.all(weightsManifest.flatMap(({ paths }) => paths.map(read)))
  const weights = new Uint8Array(Buffer.concat(parts))
  return {
    modelTopology,
    weightSpecs: weightsManifest.flatMap((group) => group.weights),
    weightData: weights.buffer,
  }
}
