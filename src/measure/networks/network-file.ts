import { readFileSync } from 'node:fs'
import { readFile } from 'node:fs/promises'
import { createRequire } from 'node:module'
import { dirname, join } from 'node:path'
import { compileFunction } from 'node:vm'

/** Where a network lies: a file of an installed package, or a part of one that packs several. */
export interface NetworkFile {
  /** Such as `@mediapipe/selfie_segmentation/selfie_segmentation.tflite`. */
  readonly file: string
  /** The part's own name, and the script of the package that says where in the file each part lies. */
  readonly part?: { readonly name: string; readonly script: string }
}

const require = createRequire(import.meta.url)

/**
 * Reads a network from the disk.
 * @throws Error when the file is missing, or holds no such part
 */
export async function readNetwork({ file, part }: NetworkFile): Promise<Uint8Array> {
  const content = await readFile(require.resolve(file))
  if (!part) return new Uint8Array(content)
  const script = await readFile(require.resolve(part.script), 'utf8')
  const entry = [...script.matchAll(ENTRY)].find(([, path]) => path?.endsWith(`/${part.name}`))
  if (!entry) throw new Error(`${file} has no part named ${part.name}.`)
  return new Uint8Array(content.subarray(Number(entry[2]), Number(entry[3])))
}

/** A part as the scripts of packages list it that Emscripten's file packager made: its path, and where it starts and ends. */
const ENTRY = /\{"filename": "([^"]+)", "start": (\d+), "end": (\d+)\}/g

/**
 * The name of LiteRT.js's loader; its WebAssembly lies beside it. Of its builds the one without relaxed SIMD, whose rounding depends on
 * the processor: the same picture must give the same numbers on each machine.
 */
export function runtimeScript(): string {
  const code = dirname(require.resolve('@litertjs/core'))
  return join(code, '..', 'wasm', 'litert_wasm_compat_internal.js')
}

/** What the loader of LiteRT.js defines: made for browsers, it is no module that Node could load. */
export async function runtimeFactory(): Promise<unknown> {
  const path = runtimeScript()
  const script = `${readFileSync(path, 'utf8')}\nreturn ModuleFactory`
  return compileFunction(script, ['require', '__dirname'], { filename: path })(require, dirname(path))
}
