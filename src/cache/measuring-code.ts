import { createHash } from 'node:crypto'
import { readdirSync, readFileSync } from 'node:fs'
import { extname, join } from 'node:path'
import { fileURLToPath } from 'node:url'

/** What a measurement is made by: the folders of src, of whose code measuring uses no other. */
export const MEASURING = ['measure', 'imaging', 'kernels', 'color', 'numbers', 'files'] as const

/** SHA-256, hex, of the code that measures and that of the cache. */
export function measuringCode(): string {
  const hash = createHash('sha256')
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
