import { constants } from 'node:fs'
import { type FileHandle, open } from 'node:fs/promises'
import type { Fault } from './fault.ts'

/** A file's bytes, or why they can't be had; its size when at least that is known. */
export type Content =
  | { readonly bytes: number; readonly data: Buffer }
  | { readonly bytes: number; readonly fault: Fault }

/**
 * Reads a whole file, which is never empty then. Never rejects.
 * @param path absolute
 * @param maxBytes a larger file is refused before it is read
 */
export async function readContent(path: string, maxBytes: number): Promise<Content> {
  let handle: FileHandle | undefined
  try {
    // A named pipe without a writer would block the opening for ever. Windows has no such flag.
    handle = await open(path, constants.O_RDONLY | (constants.O_NONBLOCK ?? 0))
    return await readHandle(handle, maxBytes)
  } catch (error) {
    return { bytes: 0, fault: { kind: 'unreadable', detail: systemWords(error) } }
  } finally {
    await handle?.close()
  }
}

async function readHandle(handle: FileHandle, maxBytes: number): Promise<Content> {
  const info = await handle.stat()
  if (!info.isFile()) return { bytes: 0, fault: { kind: 'unreadable', detail: 'not a regular file' } }
  if (info.size > maxBytes) {
    const detail = `${info.size} bytes; the limit is ${maxBytes}`
    return { bytes: info.size, fault: { kind: 'too-large', detail } }
  }
  const data = await handle.readFile()
  if (data.length === 0) return { bytes: 0, fault: { kind: 'empty', detail: '' } }
  return { bytes: data.length, data }
}

/** "EACCES: permission denied" of "EACCES: permission denied, open '/home/...'": the path is the user's own affair. */
function systemWords(error: unknown): string {
  const message = error instanceof Error ? error.message : String(error)
  return message.split(',', 1)[0] ?? ''
}
