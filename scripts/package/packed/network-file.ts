import { readFile } from 'node:fs/promises'
import { basename, join } from 'node:path'
import type * as source from '../../../src/measure/networks/network-file.ts'

// In the packed form networks and their runtime lie beside the code, in a folder that scripts/package fills.

/** @throws Error when the file is missing */
export const readNetwork: typeof source.readNetwork = async ({ file, part }) =>
  new Uint8Array(await readFile(place(part?.name ?? basename(file))))

export const runtimeScript: typeof source.runtimeScript = () => place('litert_wasm_compat_internal.js')

function place(name: string): string {
  return join(import.meta.dirname, 'networks', name)
}
