import { mkdir, writeFile } from 'node:fs/promises'
import { dirname, join, resolve } from 'node:path'
import { check, loadSpec } from '../../../src/index.ts'
import type { Report } from '../../../src/judge/report.ts'
import { BRAND } from './house.ts'

/** Writes files below a folder. */
export async function written(folder: string, files: ReadonlyMap<string, Buffer | string>): Promise<void> {
  for (const [path, bytes] of files) {
    await mkdir(dirname(join(folder, path)), { recursive: true })
    await writeFile(join(folder, path), bytes)
  }
}

/** What a folder's `delivery` is judged by; the house style and the list of the staff unless told. */
export interface JudgedBy {
  readonly brand?: string
  readonly roster: string | Buffer
}

/** Checks a folder's `delivery`; what was measured is kept for the next time. */
export async function judged(folder: string, { brand = BRAND, roster }: JudgedBy): Promise<Report> {
  const files: [string, string | Buffer][] = [
    ['brand.yaml', brand],
    ['staff.csv', roster],
  ]
  await written(folder, new Map(files))
  const spec = await loadSpec('brand.yaml', { cwd: folder })
  const at = new Date('2027-02-03T10:00:00Z')
  return check(['delivery'], { cwd: folder, spec, at, workers: 0, cache: resolve('.cache/planted') })
}
