import { count } from '../text/quantity.ts'
import { quote } from '../text/quote.ts'
import { DistinctNames } from './distinct-names.ts'
import { whyRefused } from './entry-name.ts'
import { RefusedArchive } from './refused-archive.ts'

/** A file or a folder of a zip, as its list of files has it. */
export interface ListedEntry {
  /** Without the slash at the end of a folder. */
  readonly path: string
  readonly isFolder: boolean
  /** As in Unix, with the type of the file; 0 when it is not told. */
  readonly mode: number
  /** Attributes of a file as in MS-DOS and Windows. */
  readonly attributes: number
  readonly isEncrypted: boolean
  readonly method: number
  readonly bytes: number
  /** Where it lies in the zip, its own header included, in bytes. */
  readonly from: number
  readonly to: number
}

/** Most files and folders. @choice 20 files for each of 5,000 people */
export const MOST_ENTRIES = 100_000
/** Most bytes that a zip may unpack to, 32 GiB. @choice 4,000 files of 8 MB */
export const MOST_BYTES = 32 * 1024 ** 3
/** How much of that for each byte of the zip, and in any case. @choice pictures hardly shrink, reports to a fifteenth */
const MOST_TIMES = 100
const ALWAYS = 64 * 1024 ** 2

/** @source POSIX.1-2017, sys/stat.h, as all systems number it: mask of the type, regular file, folder */
const TYPE = 0o170000
const FILE = 0o100000
const FOLDER = 0o040000
/** @source [MS-FSCC] 2.6, FILE_ATTRIBUTE_REPARSE_POINT: links of Windows */
const REPARSE = 0x400
/** @source PKWARE APPNOTE 4.4.5: stored, deflated */
const METHODS = [0, 8]

/**
 * Refuses a zip for what its list of files says, before anything is written.
 * @param size bytes of the zip
 * @throws RefusedArchive
 */
export function checkEntries(entries: readonly ListedEntry[], size: number): void {
  for (const entry of entries) {
    const why = whyRefused(entry.path) ?? refusal(entry)
    if (why !== null) throw new RefusedArchive(`${why}. Ask for a zip of plain files and folders.`)
  }
  const names = new DistinctNames()
  for (const { path, isFolder } of entries) {
    const why = names.add(path, isFolder)
    if (why !== null) throw new RefusedArchive(`${why}. Ask for a zip with distinct names.`)
  }
  checkOverlap(entries)
  const bytes = entries.reduce((sum, entry) => sum + entry.bytes, 0)
  if (bytes > Math.min(MOST_BYTES, size * MOST_TIMES + ALWAYS))
    throw new RefusedArchive(
      `has ${megabytes(size)} and would unpack to ${megabytes(bytes)}, more than pictures ever do. Ask for smaller parts, packed as usual.`,
    )
}

function refusal({ path, isFolder, mode, attributes, isEncrypted, method }: ListedEntry): string | null {
  const name = quote(path)
  const type = mode & TYPE
  if ((type !== 0 && type !== FILE && type !== FOLDER) || (attributes & REPARSE) !== 0)
    return `holds ${name}, a link or a device`
  if (type !== 0 && (type === FOLDER) !== isFolder) return `holds ${name}, a file and a folder at once`
  if (isEncrypted) return `holds ${name}, which is encrypted`
  if (!METHODS.includes(method))
    return `holds ${name}, packed in a way (${method}) that not every program can unpack`
  return null
}

/** Files that share bytes are how a small zip unpacks to petabytes. */
function checkOverlap(entries: readonly ListedEntry[]): void {
  const sorted = [...entries].sort((a, b) => a.from - b.from)
  for (const [index, entry] of sorted.entries()) {
    const before = sorted[index - 1]
    if (before ? before.to > entry.from : entry.from !== 0)
      throw new RefusedArchive(
        before
          ? `holds ${quote(before.path)} and ${quote(entry.path)}, which share the same bytes. It is damaged, or a trap.`
          : 'has something before its first file, such as a program that unpacks it. Ask for a plain zip.',
      )
  }
}

function megabytes(bytes: number): string {
  return count(Math.ceil(bytes / 1024 ** 2), 'MiB', 'MiB')
}
