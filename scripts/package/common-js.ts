import { readFile } from 'node:fs/promises'
import { transform } from 'esbuild'

/** A script of CommonJS without its types. */
export async function commonJs(path: string): Promise<string> {
  return (await transform(await readFile(path, 'utf8'), { loader: 'ts' })).code
}
