import { constants } from 'node:fs'
import { type FileHandle, open } from 'node:fs/promises'

/** A file's bytes, or why they are not read: it is no regular file, or has more than it may; `bytes` as far as known. */
export type AtMost =
  | { readonly data: Buffer }
  | { readonly refused: 'no-file' }
  | { readonly refused: 'too-large'; readonly bytes: number }

const CHUNK = 64 * 1024

/**
 * Reads a regular file of at most so many bytes, whatever it does meanwhile: a pipe or a device does not block or flow
 * without end, and a file that grows is read to the limit and no further.
 * @param path absolute
 * @throws the system's error when it can't be opened or read
 */
export async function readAtMost(path: string, maxBytes: number): Promise<AtMost> {
  // A named pipe without a writer would block the opening for ever. Windows has no such flag.
  const handle = await open(path, constants.O_RDONLY | (constants.O_NONBLOCK ?? 0))
  try {
    const info = await handle.stat()
    if (!info.isFile()) return { refused: 'no-file' }
    if (info.size > maxBytes) return { refused: 'too-large', bytes: info.size }
    return await readToEnd(handle, info.size, maxBytes)
  } finally {
    await handle.close()
  }
}

async function readToEnd(handle: FileHandle, expected: number, maxBytes: number): Promise<AtMost> {
  // One byte more than expected, so that the end shows without growing.
  let buffer: Buffer = Buffer.allocUnsafeSlow(expected + 1)
  let filled = 0
  for (;;) {
    if (filled === buffer.length) buffer = grown(buffer)
    const { bytesRead } = await handle.read(buffer, filled, buffer.length - filled, null)
    if (bytesRead === 0) return { data: buffer.subarray(0, filled) }
    filled += bytesRead
    if (filled > maxBytes) return { refused: 'too-large', bytes: filled }
  }
}

function grown(buffer: Buffer): Buffer {
  const larger = Buffer.allocUnsafeSlow(2 * buffer.length + CHUNK)
  buffer.copy(larger)
  return larger
}
