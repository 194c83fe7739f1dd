import { readFile } from 'node:fs/promises'
import { basename, dirname, join, relative, resolve } from 'node:path'
import type { Metafile } from 'esbuild'
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
    ['start.cjs', await readFile(join(built, 'start.cjs'))],
    ['LICENSES.txt', licenseTexts(packagesOf(metafile))],
  ])
}

/** The packages of which the package holds a part: of their code in the bundle, or files beside it. */
export function packagesOf({ inputs }: Pick<Metafile, 'inputs'>): string[] {
  const beside = ['@sinclair/typebox', ...Object.values(NETWORKS).map(({ file }) => dirname(file))]
  const inside = Object.keys(inputs).map((path) => PACKAGE.exec(path)?.[1])
  return [...new Set([...beside, ...inside.filter((name) => name !== undefined)])].sort()
}

const PACKAGE = /.*node_modules\/((?:@[^/]+\/)?[^/]+)\//
