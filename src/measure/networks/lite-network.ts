import { readFileSync } from 'node:fs'
import { type NetworkFile, readNetwork, runtimeFactory, runtimeScript } from './network-file.ts'

/** A neural network in a .tflite file, which reads pictures. */
export interface LiteNetwork {
  /**
   * Runs the network once and gives its answers, in the order of its outputs.
   * @param values the input, row by row, channels interleaved
   * @param shape how many pictures, rows, columns and channels it holds
   */
  run(values: Float32Array<ArrayBuffer>, shape: number[]): Promise<Float32Array[]>
}

type LiteRt = typeof import('@litertjs/core')

let starting: Promise<LiteRt> | undefined

/**
 * Loads a network. It runs on WebAssembly with SIMD, in the thread that calls it: threads can each load their own. Nothing is fetched from
 * a network.
 * @throws Error when the file is missing, or WebAssembly does not start
 */
export async function loadLiteNetwork(file: NetworkFile): Promise<LiteNetwork> {
  starting ??= start()
  const [content, { loadAndCompile, Tensor }] = await Promise.all([readNetwork(file), starting])
  const network = await loadAndCompile(content, { accelerator: 'wasm' })
  return {
    async run(values, shape) {
      const input = new Tensor(values, shape)
      const answers = await network.run([input])
      const read = await Promise.all(answers.map((answer) => answer.data()))
      for (const used of [input, ...answers]) used.delete()
      return read.map((answer) => (answer instanceof Float32Array ? answer : Float32Array.from(answer)))
    },
  }
}

/**
 * Starts LiteRT.js, which is made for browsers. It runs its loader by `importScripts`, finds what that leaves in `self`, and looks for a GPU;
 * from then on it needs none of that. Its WebAssembly is read and compiled here, since it would copy the nine megabytes once more.
 */
async function start(): Promise<LiteRt> {
  const library = await import('@litertjs/core')
  // Once a process: others may have started it, as tests do that share one.
  if (await library.getGlobalLiteRtPromise()) return library
  const path = runtimeScript()
  const factory = await runtimeFactory()
  const ignore = () => undefined
  const compiled = new WebAssembly.Module(readFileSync(path.replace(/\.js$/, '.wasm')))
  const instantiateWasm = (imports: object, receive: (made: WebAssembly.Instance) => void) =>
    receive(new WebAssembly.Instance(compiled, imports))
  const browser = {
    self: globalThis,
    importScripts: () => Object.assign(globalThis, { ModuleFactory: factory }),
    ModuleFactory: undefined,
    // It would print what it finds; what goes wrong it throws.
    Module: { print: ignore, printErr: ignore, instantiateWasm },
    navigator: { gpu: { requestAdapter: async () => NO_GPU } },
  }
  const before = Object.keys(browser).map((name) => Reflect.getOwnPropertyDescriptor(globalThis, name))
  for (const [name, value] of Object.entries(browser))
    Object.defineProperty(globalThis, name, { value, writable: true, configurable: true })
  try {
    await library.loadLiteRt(path)
  } finally {
    for (const [i, name] of Object.keys(browser).entries()) {
      Reflect.deleteProperty(globalThis, name)
      if (before[i]) Object.defineProperty(globalThis, name, before[i])
    }
  }
  return library
}

/** What the library asks for a GPU, which has none to give. */
const NO_GPU = { limits: {}, features: new Set<string>(), requestDevice: async () => null }
