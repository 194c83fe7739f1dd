import { readFileSync } from 'node:fs'
import { basename, join } from 'node:path'
import type * as source from '../../../src/measure/networks/network-file.ts'

// In the packed form networks and the WebAssembly of their runtime lie beside the code, in a folder that scripts/package fills.

/** By this thread: those that files are read by otherwise are decoding the first picture. @throws Error when the file is missing */
export const readNetwork: typeof source.readNetwork = async ({ file, part }) => {
  const { buffer, byteOffset, length } = readFileSync(place(part?.name ?? basename(file)))
  return new Uint8Array(buffer, byteOffset, length)
}

export const runtimeScript: typeof source.runtimeScript = () => place('litert_wasm_compat_internal.js')

/** A part of the bundle, which V8 has compiled before. */
export const runtimeFactory: typeof source.runtimeFactory = async () =>
  (await import('@litertjs/core/wasm/litert_wasm_compat_internal.js')).default

function place(name: string): string {
  return join(import.meta.dirname, 'networks', name)
}
