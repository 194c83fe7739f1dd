import { readFile } from 'node:fs/promises'
import { basename, dirname, join, resolve } from 'node:path'
import type { Metafile } from 'esbuild'
import { readNetwork, runtimeScript } from '../../src/measure/networks/network-file.ts'
import { NETWORKS } from '../../src/measure/networks/networks.ts'
import { bundle } from './bundle.ts'
import { asCommonJs, stubs } from './chunks.ts'
import { commonJs } from './common-js.ts'
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
  const runtime = runtimeScript().replace(/\.js$/, '.wasm')
  const chunks = await Promise.all(outputFiles.map(asCommonJs))
  const library = Object.entries(metafile.outputs).find(([path]) => basename(path) === 'index.js')
  return new Map<string, Uint8Array | string>([
    ...chunks.map(([name, text]): [string, string] => [join('code', name), text]),
    ...stubs(library?.[1].exports ?? []),
    ...(await Promise.all(networks)),
    [`networks/${basename(runtime)}`, await readFile(runtime)],
    ...[...declarations(built)].map(([path, text]): [string, string] => [join('types', path), text]),
    ['load.cjs', await commonJs('scripts/package/packed/load.cts')],
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
