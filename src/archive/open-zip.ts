import { constants } from 'node:fs'
import { type FileHandle, open } from 'node:fs/promises'
import { type Entry, fromFdPromise, type ZipFile } from 'yauzl'
import { quote } from '../text/quote.ts'
import { checkEntries, type ListedEntry, MOST_ENTRIES } from './check-entries.ts'
import { type Directory, directoryOf, TAIL } from './end-record.ts'
import { entryName } from './entry-name.ts'
import { RefusedArchive } from './refused-archive.ts'

export interface OpenedEntry extends ListedEntry {
  readonly entry: Entry
}

/**
 * Opens a zip, refuses it for what its list of files says, and does something with it.
 * @param path absolute
 * @throws RefusedArchive; the system's error when it can't be read; the signal's reason when it is aborted
 */
export async function withZip(
  path: string,
  signal: AbortSignal,
  work: (zip: ZipFile, entries: readonly OpenedEntry[]) => Promise<void>,
): Promise<void> {
  const file = await open(path, constants.O_RDONLY | (constants.O_NONBLOCK ?? 0))
  try {
    const stats = await file.stat()
    if (!stats.isFile()) throw new RefusedArchive('is not a regular file. Name a zip.')
    const directory = directoryOf(await tailOf(file, stats.size), stats.size)
    const zip = await fromFdPromise(file.fd, { autoClose: false, decodeStrings: false })
    const entries = await entriesOf(zip, directory)
    checkEntries(entries, stats.size)
    await work(zip, entries)
  } catch (error) {
    signal.throwIfAborted()
    throw isLibrary(error) ? new RefusedArchive(`is damaged (${error.message}). Ask for it again.`) : error
  } finally {
    await file.close()
  }
}

/** What the library, or the unpacking itself, minds has no code of the system's. */
function isLibrary(error: unknown): error is Error {
  if (!(error instanceof Error) || error instanceof RefusedArchive || error.name === 'AbortError')
    return false
  return !('code' in error) || String(error.code).startsWith('Z_')
}

async function tailOf(file: FileHandle, size: number): Promise<Buffer> {
  const tail = Buffer.alloc(Math.min(TAIL, size))
  await file.read(tail, 0, tail.length, size - tail.length)
  return tail
}

async function entriesOf(zip: ZipFile, directory: Directory): Promise<OpenedEntry[]> {
  if (zip.entryCount > MOST_ENTRIES)
    throw new RefusedArchive(
      `holds ${zip.entryCount} files; the limit is ${MOST_ENTRIES}. Ask for smaller parts.`,
    )
  const entries: OpenedEntry[] = []
  let bytes = 0
  for await (const entry of zip.eachEntry()) {
    bytes += HEADER + entry.fileNameLength + entry.extraFieldLength + entry.fileCommentLength
    entries.push(await openedEntry(zip, entry))
  }
  if (bytes !== directory.end - directory.start)
    throw new RefusedArchive(
      'lists more files than it counts: it is damaged, or hides files. Ask for it again.',
    )
  return entries
}

/** Bytes of an entry of the list of files without its texts. @source PKWARE APPNOTE 4.3.12 */
const HEADER = 46
/** The checksum and the sizes stand behind the file, not before it. @source PKWARE APPNOTE 4.4.4, bit 3 */
const BEHIND = 8
/** Encrypted; strongly; the list of files too. @source PKWARE APPNOTE 4.4.4, bits 0, 6 and 13 */
const ENCRYPTED = 0x2041

async function openedEntry(zip: ZipFile, entry: Entry): Promise<OpenedEntry> {
  const name = entryName(entry)
  const local = await zip.readLocalFileHeaderPromise(entry)
  const isBehind = (local.generalPurposeBitFlag & BEHIND) !== 0
  if (
    !local.fileName.equals(entry.fileNameRaw) ||
    local.compressionMethod !== entry.compressionMethod ||
    (!isBehind && local.crc32 !== entry.crc32)
  )
    throw new RefusedArchive(
      `describes ${quote(name)} in two ways, of which programs take one or the other. It is damaged, or a trap.`,
    )
  return {
    entry,
    path: name.replace(/\/$/, ''),
    isFolder: name.endsWith('/'),
    mode: entry.externalFileAttributes >>> 16,
    attributes: entry.externalFileAttributes & 0xffff,
    isEncrypted: ((entry.generalPurposeBitFlag | local.generalPurposeBitFlag) & ENCRYPTED) !== 0,
    method: entry.compressionMethod,
    bytes: entry.uncompressedSize,
    from: entry.relativeOffsetOfLocalHeader,
    to: local.fileDataStart + entry.compressedSize,
  }
}
