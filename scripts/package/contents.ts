import { readFile } from 'node:fs/promises'
import { basename, dirname, join, relative, resolve } from 'node:path'
import { readNetwork, runtimeScript } from '../../src/measure/networks/network-file.ts'
import { NETWORKS } from '../../src/measure/networks/networks.ts'
import { bundle } from './bundle.ts'
import { licenseTexts } from './licenses.ts'
import { declarations } from './types.ts'

/**
 * What `npm run package` makes: the code with its libraries, the networks that are run and their runtime, the library's types, and the
 * licenses of all of that, by path. Run in the repository's root when it is built.
 */
export async function packageContents(built: string): Promise<ReadonlyMap<string, Uint8Array | string>> {
  const { outputFiles, metafile } = await bundle(resolve('bundle'))
  const packages = [...packagesIn(Object.keys(metafile.inputs)), ...BESIDE]
  const networks = Object.values(NETWORKS).map(async (network): Promise<[string, Uint8Array]> => {
    const name = 'part' in network ? network.part.name : basename(network.file)
    return [`networks/${name}`, await readNetwork(network)]
  })
  const script = runtimeScript()
  const runtime = [script, script.replace(/\.js$/, '.wasm')].map(
    async (path): Promise<[string, Uint8Array]> => [`networks/${basename(path)}`, await readFile(path)],
  )
  return new Map<string, Uint8Array | string>([
    ...outputFiles.map(({ path, contents }): [string, Uint8Array] => [
      relative(resolve('bundle'), path),
      contents,
    ]),
    ...(await Promise.all([...networks, ...runtime])),
    ...[...declarations(built)].map(([path, text]): [string, string] => [join('types', path), text]),
    ['LICENSES.txt', licenseTexts([...new Set(packages)])],
  ])
}

/** Packages of which files are put beside the code. */
const BESIDE = ['@sinclair/typebox', ...Object.values(NETWORKS).map(({ file }) => dirname(file))]

/** The packages in whose folders files lie. */
export function packagesIn(paths: readonly string[]): string[] {
  const names = paths.map((path) => /.*node_modules\/((?:@[^/]+\/)?[^/]+)\//.exec(path)?.[1])
  return [...new Set(names.filter((name) => name !== undefined))].sort()
}
