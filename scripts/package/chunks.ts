import { basename } from 'node:path'
import { type OutputFile, transform } from 'esbuild'

/*
 * Code that is loaded as V8 compiled it before has to be CommonJS: of modules Node 20 keeps nothing.
 */

/** Starts each entry by its name; the shipped program's own files are all that is looked for by name. */
const STUBS: Readonly<Record<string, string>> = {
  cli: start("process.argv[2]?.startsWith('-') ? null : 'main'", "load('cli.js')"),
  action: start("'main'", "load('action.js')"),
  worker: start("'worker'", "load('worker.js')"),
  'measuring-worker': start('null', "export default load('measuring-worker.js').default"),
  'reading-worker': start('null', "load('reading-worker.js')"),
  'pairs-worker': start('null', "load('pairs-worker.js')"),
}

function start(role: string, load: string): string {
  return `import loader from './load.cjs'
const { load, takeCompiled } = loader
const role = ${role}
if (role !== null) takeCompiled(role)
${load}
`
}

/** What stands for each entry where it is looked for. @param exported names of what the library exports */
export function stubs(exported: readonly string[]): ReadonlyMap<string, string> {
  const index = start("'main'", `export const { ${exported.join(', ')} } = load('index.js')`)
  return new Map(Object.entries({ ...STUBS, index }).map(([name, text]) => [`${name}.js`, text]))
}

/** A chunk of the bundle as CommonJS, by its name. */
export async function asCommonJs({ path, text }: OutputFile): Promise<[name: string, code: string]> {
  const { code } = await transform(text, {
    format: 'cjs',
    platform: 'node',
    target: 'node20.19',
    minifyWhitespace: true,
    minifySyntax: true,
    legalComments: 'none',
    supported: { 'dynamic-import': false },
    define: { 'import.meta.url': 'MODULE_URL', 'import.meta.dirname': '__dirname' },
    logLevel: 'error',
  })
  return [basename(path), code]
}
