import { readFile } from 'node:fs/promises'
import { relative, resolve } from 'node:path'
import { type BuildResult, build, type Plugin } from 'esbuild'
import { measuringCode } from '../../src/cache/measuring-code.ts'
import { compiledSchemas } from './compiled-schemas.ts'

/** What is started by its path: the command, the Action, the library, and the threads that measure, read and compare. */
const ENTRIES = {
  cli: 'src/cli.ts',
  action: 'src/action/main.ts',
  index: 'src/index.ts',
  'measuring-worker': 'src/pool/measuring-worker.ts',
  'reading-worker': 'src/pool/reading-worker.ts',
  'pairs-worker': 'src/likeness/pairs-worker.ts',
  // The library of threads starts this file, which it looks for beside its own code.
  worker: 'node_modules/piscina/dist/worker.js',
}

/** Files of src that need the development tree, each with its like in scripts/package/packed. */
const REPLACED = ['src/measure/networks/network-file.ts', 'src/cache/measuring-code.ts']

/**
 * The code with all libraries but the picture library, whose parts are made for one kind of machine each. Run in the repository's root.
 * @param folder where it is to lie; nothing is written there
 */
export function bundle(folder: string): Promise<BuildResult<{ metafile: true; write: false }>> {
  return build({
    entryPoints: ENTRIES,
    outdir: folder,
    bundle: true,
    splitting: true,
    write: false,
    metafile: true,
    format: 'esm',
    platform: 'node',
    target: 'node20.19',
    // The second is optional and native: priorities of threads, which nobody asks for.
    external: ['sharp', '@napi-rs/nice'],
    // Names stay, so that a fault can be reported with lines that tell something.
    minifyWhitespace: true,
    minifySyntax: true,
    legalComments: 'none',
    define: { MEASURING_CODE: JSON.stringify(measuringCode()) },
    plugins: [replaced, lazyCompiler, required, browserScript],
    logLevel: 'error',
  })
}

const replaced: Plugin = {
  name: 'replaced',
  setup({ onLoad, onResolve }) {
    const places = new Map(
      REPLACED.map((path) => [
        resolve(path),
        resolve('scripts/package/packed', path.split('/').at(-1) ?? ''),
      ]),
    )
    const filter = /\.ts$/
    onResolve({ filter }, ({ path, resolveDir }) => {
      const place = places.get(resolve(resolveDir, path))
      return place === undefined ? undefined : { path: place }
    })
    const compiled = compiledSchemas()
    onLoad({ filter }, ({ path }) => {
      const contents = compiled.get(relative('.', path))
      return contents === undefined ? undefined : { contents, loader: 'js', resolveDir: resolve('.') }
    })
  },
}

/** The compiler of schemas, loaded when one is compiled: most commands need only those that are compiled already. */
const lazyCompiler: Plugin = {
  name: 'lazy compiler',
  setup({ onLoad, onResolve }) {
    onResolve({ filter: /^ajv$/ }, ({ path, kind }) =>
      kind === 'import-statement' ? { path, namespace: 'lazy' } : undefined,
    )
    onLoad({ filter: /^ajv$/, namespace: 'lazy' }, () => ({
      contents: `export class Ajv { constructor(options) { return new (require('ajv').Ajv)(options) } }`,
      loader: 'js',
      resolveDir: resolve('.'),
    }))
  },
}

/** The picture library as CommonJS, which Node loads in half the time that its modules take. */
const required: Plugin = {
  name: 'required',
  setup({ onLoad, onResolve }) {
    onResolve({ filter: /^sharp$/ }, ({ path, kind }) =>
      kind === 'import-statement' ? { path, namespace: 'required' } : undefined,
    )
    onLoad({ filter: /^sharp$/, namespace: 'required' }, ({ path }) => ({
      contents: `export default require('${path}')`,
      loader: 'js',
      resolveDir: resolve('.'),
    }))
  },
}

/** The loader of the networks' runtime, which defines a variable where there is no module to export it from. */
const browserScript: Plugin = {
  name: 'browser script',
  setup({ onLoad }) {
    onLoad({ filter: /litert_wasm_compat_internal\.js$/ }, async ({ path }) => ({
      contents: `export default (function (module) {${await readFile(path, 'utf8')}\nreturn ModuleFactory})()`,
      loader: 'js',
    }))
  },
}
