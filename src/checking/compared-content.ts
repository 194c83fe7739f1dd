import { statSync } from 'node:fs'
import type { Source } from '../measure/file/read-file.ts'

/**
 * The files of a delivery, those of a size of their own marked: no other has their content, so that they need no hash to be
 * compared by. One that can't be looked at is not marked.
 */
export function hashedToCompare(files: readonly Source[]): Source[] {
  const sizes = files.map(({ path }) => sizeOf(path))
  const counts = new Map<number | null, number>()
  for (const size of sizes) counts.set(size, (counts.get(size) ?? 0) + 1)
  return files.map((file, i) => {
    const size = sizes[i] ?? null
    return size !== null && counts.get(size) === 1 ? { isUnlikeOthers: true, ...file } : file
  })
}

function sizeOf(path: string): number | null {
  try {
    return statSync(path).size
  } catch {
    return null
  }
}
