import { readdirSync, readFileSync } from 'node:fs'
import asc from 'assemblyscript/asc'

const FOLDER = 'src/kernels/assembly'
const OPTIONS = ['--enable', 'simd', '--runtime', 'stub', '--noAssert', '-O3', '--converge']
/** Characters of a line of text. */
const LINE = 300

/**
 * src/kernels/module.ts: the kernels (AssemblyScript) compiled to WebAssembly with SIMD, as text, so that whoever installs the
 * program needs no compiler, and a bundle no file beside it. Run in the repository's root.
 * @throws with what the compiler says
 */
export async function kernelModule(): Promise<string> {
  const names = readdirSync(FOLDER, { recursive: true, encoding: 'utf8' }).map((name) =>
    `${FOLDER}/${name}`.replaceAll('\\', '/'),
  )
  const sources = new Map(
    names.filter((name) => name.endsWith('.ts')).map((name) => [name, readFileSync(name, 'utf8')]),
  )
  let module = Buffer.alloc(0)
  const { error, stderr } = await asc.main([`${FOLDER}/index.ts`, ...OPTIONS, '--outFile', 'kernels.wasm'], {
    readFile: (name) => sources.get(name) ?? null,
    writeFile: (_, contents) => {
      module = Buffer.from(contents)
    },
    listFiles: () => [],
  })
  if (error) throw new Error(`The kernels do not compile: ${error.message}\n${stderr.toString()}`)
  const lines = module.toString('base64').match(new RegExp(`.{1,${LINE}}`, 'g')) ?? []
  return [
    '// Made by npm run generate from src/kernels/assembly; do not edit.',
    '/** The kernels as a WebAssembly module, base64. */',
    'export const MODULE = [',
    ...lines.map((line) => `  '${line}',`),
    "].join('')",
    '',
  ].join('\n')
}
