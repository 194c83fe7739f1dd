import { mkdir, open, rm } from 'node:fs/promises'
import { dirname, join } from 'node:path'
import { crc32 } from 'node:zlib'
import type { ZipFile } from 'yauzl'
import { readHead } from '../files/read-at-most.ts'
import { quote } from '../text/quote.ts'
import { holdsProgram } from './holds-program.ts'
import { type OpenedEntry, withZip } from './open-zip.ts'
import { RefusedArchive } from './refused-archive.ts'

/** Whether a file begins as a zip does, an empty one too. @param path absolute. @source PKWARE APPNOTE 4.3.7, 4.3.16 */
export function isZip(path: string): boolean {
  const head = readHead(path, 4)
  return head !== null && [0x04034b50, 0x06054b50].includes(head.length === 4 ? head.readUInt32LE(0) : 0)
}

/**
 * Unpacks a zip of plain files and folders into a folder that is not there yet; memory does not grow with its size. All
 * is refused before anything is written when one of the names, types or sizes is; what is found while unpacking leaves
 * nothing behind.
 * @param path absolute
 * @param folder absolute; its parent is there
 * @throws RefusedArchive; the system's error when the folder can't be written; the signal's reason when it is aborted
 */
export async function unpackZip(path: string, folder: string, signal: AbortSignal): Promise<void> {
  await withZip(path, signal, async (zip, entries) => {
    await mkdir(folder)
    try {
      for (const entry of entries) {
        signal.throwIfAborted()
        const target = join(folder, entry.path)
        await mkdir(entry.isFolder ? target : dirname(target), { recursive: true })
        if (!entry.isFolder) await writeEntry(zip, entry, target, signal)
      }
    } catch (error) {
      await rm(folder, { recursive: true, force: true })
      throw error
    }
  })
}

async function writeEntry(
  zip: ZipFile,
  opened: OpenedEntry,
  target: string,
  signal: AbortSignal,
): Promise<void> {
  const { entry, path } = opened
  const stream = await zip.openReadStreamPromise(entry)
  const file = await open(target, 'wx')
  let crc = 0
  let isFirst = true
  try {
    for await (const chunk of stream as AsyncIterable<Buffer>) {
      signal.throwIfAborted()
      if (isFirst && holdsProgram(chunk))
        throw new RefusedArchive(
          `holds ${quote(path)}, which is a program whatever its name says. Ask for pictures only.`,
        )
      isFirst = false
      crc = crc32(chunk, crc)
      await file.writeFile(chunk)
    }
  } finally {
    stream.destroy()
    await file.close()
  }
  if (crc !== entry.crc32)
    throw new RefusedArchive(
      `holds ${quote(path)}, which was damaged on the way (its checksum differs). Ask for it again.`,
    )
}
