import type { FileMemory } from '../../files/file-memory.ts'
import { readAtMost } from '../../files/read-at-most.ts'
import { shortageOf } from '../../files/shortage.ts'
import type { Fault } from '../schema/fault.ts'

/** A file's bytes, or why they can't be had; its size when at least that is known. */
export type Content =
  | { readonly bytes: number; readonly data: Buffer }
  | { readonly bytes: number; readonly fault: Fault }

/**
 * Reads a whole file, which is never empty then. Rejects for nothing that is wrong with the file.
 * @param path absolute
 * @param maxBytes of a larger file no more is read
 * @param memory where its bytes are put, until the next file is read into it; new memory unless told
 * @throws the system's error when the process has run out of memory or of files that it may open
 */
export async function readContent(
  path: string,
  maxBytes: number,
  memory: FileMemory | null = null,
): Promise<Content> {
  try {
    const read = await readAtMost(path, maxBytes, memory)
    if ('data' in read) {
      const { data } = read
      return data.length === 0
        ? { bytes: 0, fault: { kind: 'empty', detail: '' } }
        : { bytes: data.length, data }
    }
    if (read.refused === 'no-file')
      return { bytes: 0, fault: { kind: 'unreadable', detail: 'not a regular file' } }
    const detail = `${read.bytes} bytes; the limit is ${maxBytes}`
    return { bytes: read.bytes, fault: { kind: 'too-large', detail } }
  } catch (error) {
    if (shortageOf(error) !== null) throw error
    return { bytes: 0, fault: { kind: 'unreadable', detail: systemWords(error) } }
  }
}

/** "EACCES: permission denied" of "EACCES: permission denied, open '/home/...'": the path is the user's own affair. */
function systemWords(error: unknown): string {
  const message = error instanceof Error ? error.message : String(error)
  return message.split(',', 1)[0] ?? ''
}
