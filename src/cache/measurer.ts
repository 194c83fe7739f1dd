import { createHash } from 'node:crypto'
import { readdirSync, readFileSync } from 'node:fs'
import { arch, platform } from 'node:os'
import { extname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { MEASURER_VERSION } from '../measure/schema/measurer-version.ts'
import { MEASURING_LIBRARIES } from './measuring-libraries.ts'

/** What a measurement is made by: the folders of src, of whose code measuring uses no other. */
export const MEASURING = ['measure', 'imaging', 'kernels', 'color', 'numbers', 'files'] as const

/**
 * What tells one measurer from another, hex: its version, its own code and that of the cache, the libraries and the
 * machine's kind. A change of the code that forgets the version finds nothing kept all the same.
 */
export function measurerId(): string {
  const hash = createHash('sha256')
  hash.update(JSON.stringify([MEASURER_VERSION, MEASURING_LIBRARIES, platform(), arch()]))
  for (const part of [...MEASURING, 'cache']) {
    const folder = fileURLToPath(new URL(`../${part}`, import.meta.url))
    const code = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter(isCode).sort()
    for (const file of code) hash.update(readFileSync(join(folder, file)))
  }
  return hash.digest('hex')
}

function isCode(file: string): boolean {
  return extname(file) === extname(import.meta.url) && !file.endsWith('.d.ts')
}
