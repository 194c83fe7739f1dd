import { closeSync, constants, fstatSync, openSync, readSync } from 'node:fs'
import type { FileMemory } from './file-memory.ts'
import { shortageOf } from './shortage.ts'

/** A file's bytes, or why they are not read: it is no regular file, or has more than it may; `bytes` as far as known. */
export type AtMost =
  | { readonly data: Buffer }
  | { readonly refused: 'no-file' }
  | { readonly refused: 'too-large'; readonly bytes: number }

const CHUNK = 64 * 1024

/**
 * The first bytes of a regular file, at most so many; null when it is none, or can't be read. Never waits.
 * @throws the system's error when the process has run out of files that it may open
 */
export function readHead(path: string | Buffer, most: number): Buffer | null {
  try {
    return inRegularFile(path, (file) => {
      const head = Buffer.alloc(most)
      return head.subarray(0, readSync(file, head, 0, most, 0))
    })
  } catch (error) {
    if (shortageOf(error) !== null) throw error
    return null
  }
}

/**
 * Reads a regular file of at most so many bytes, whatever it does meanwhile: a pipe or a device does not block or flow
 * without end, and a file that grows is read to the limit and no further. The thread waits for the disk: handing each
 * call to another one takes several times as long as reading a small file.
 * @param path absolute
 * @param memory where the bytes are put; they stand there until the next file is read into it. New memory unless told
 * @throws the system's error when it can't be opened or read
 */
export async function readAtMost(
  path: string,
  maxBytes: number,
  memory: FileMemory | null = null,
): Promise<AtMost> {
  return readAtMostNow(path, maxBytes, memory)
}

/** The same for whoever has no promise to wait for, and so may read one file after the other into the same memory. */
export function readAtMostNow(path: string, maxBytes: number, memory: FileMemory | null = null): AtMost {
  const read = inRegularFile<AtMost>(path, (file, size) => {
    if (size > maxBytes) return { refused: 'too-large', bytes: size }
    // One byte more than expected, so that the end shows without growing.
    const expected = size + 1
    return readToEnd(file, memory?.ofAtLeast(expected) ?? Buffer.allocUnsafeSlow(expected), maxBytes)
  })
  return read ?? { refused: 'no-file' }
}

/** What is read of a regular file while it is open; null for anything else. */
function inRegularFile<T>(path: string | Buffer, read: (file: number, size: number) => T): T | null {
  // A named pipe without a writer would block the opening for ever. Windows has no such flag.
  const file = openSync(path, constants.O_RDONLY | (constants.O_NONBLOCK ?? 0))
  try {
    const info = fstatSync(file)
    return info.isFile() ? read(file, info.size) : null
  } finally {
    closeSync(file)
  }
}

function readToEnd(file: number, buffer: Buffer, maxBytes: number): AtMost {
  let into = buffer
  let filled = 0
  for (;;) {
    if (filled === into.length) into = grown(into)
    const bytesRead = readSync(file, into, filled, into.length - filled, null)
    if (bytesRead === 0) return { data: into.subarray(0, filled) }
    filled += bytesRead
    if (filled > maxBytes) return { refused: 'too-large', bytes: filled }
  }
}

function grown(buffer: Buffer): Buffer {
  const larger = Buffer.allocUnsafeSlow(2 * buffer.length + CHUNK)
  buffer.copy(larger)
  return larger
}
