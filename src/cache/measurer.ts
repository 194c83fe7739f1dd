import { createHash } from 'node:crypto'
import { readdir, readFile } from 'node:fs/promises'
import { arch, platform } from 'node:os'
import { extname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { MEASURER_VERSION } from '../measure/measurer-version.ts'
import { MEASURING_LIBRARIES } from '../version.ts'

/**
 * What tells one measurer from another, hex: its version, its own code, the libraries and the machine's kind. A change
 * of the code that forgets the version finds nothing kept all the same.
 */
export async function measurerId(): Promise<string> {
  const hash = createHash('sha256')
  hash.update(JSON.stringify([MEASURER_VERSION, MEASURING_LIBRARIES, platform(), arch()]))
  for (const part of ['measure', 'color', 'numbers', 'files']) {
    const folder = fileURLToPath(new URL(`../${part}`, import.meta.url))
    const code = (await readdir(folder, { recursive: true })).filter(isCode).sort()
    for (const content of await Promise.all(code.map((file) => readFile(join(folder, file)))))
      hash.update(content)
  }
  return hash.digest('hex')
}

function isCode(file: string): boolean {
  return extname(file) === extname(import.meta.url) && !file.endsWith('.d.ts')
}
