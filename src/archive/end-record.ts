import { RefusedArchive } from './refused-archive.ts'

/** @source PKWARE APPNOTE 4.3.16, end of central directory record, and 4.3.15, its locator in ZIP64 */
const SIGNATURE = Buffer.from([0x50, 0x4b, 5, 6])
const LOCATOR = Buffer.from([0x50, 0x4b, 6, 7])
const BYTES = 22
const LOCATOR_BYTES = 20

/** Where a zip ends, with the longest comment and the locator before it. @source PKWARE APPNOTE 4.3.15, 4.3.16 */
export const TAIL = LOCATOR_BYTES + BYTES + 0xffff

/** Where the list of files lies, in bytes from the beginning of the zip. */
export interface Directory {
  readonly start: number
  readonly end: number
}

const SPLIT = 'is one part of several. Ask for one single zip.'

/**
 * Finds where a zip's list of files lies. There must be one only: a comment that holds the end of another zip would show
 * different files to different programs.
 * @param tail the last bytes, `TAIL` of them or the whole zip
 * @param size bytes of the zip
 * @throws RefusedArchive
 */
export function directoryOf(tail: Buffer, size: number): Directory {
  const ends: number[] = []
  for (let at = tail.indexOf(SIGNATURE); at >= 0; at = tail.indexOf(SIGNATURE, at + 1)) ends.push(at)
  const consistent = ends.filter((at) => at + BYTES <= tail.length && commentEnd(tail, at) === tail.length)
  const [at, another] = consistent
  if (at === undefined)
    throw new RefusedArchive(
      ends.length > 0
        ? 'has something behind its end, or is cut off. Ask for it again.'
        : 'is no zip, or was cut off on the way. Ask for it again.',
    )
  if (another !== undefined)
    throw new RefusedArchive(
      'hides a second list of files in its comment. Do not open it with other programs either.',
    )
  const end = size - tail.length + at
  const locator = at - LOCATOR_BYTES
  if (locator >= 0 && tail.subarray(locator, locator + 4).equals(LOCATOR)) {
    if (tail.readUInt32LE(locator + 16) > 1) throw new RefusedArchive(SPLIT)
    return wideDirectory(tail, { at: Number(tail.readBigUInt64LE(locator + 8)), offset: size - tail.length })
  }
  // Numbers of the disk, of the one with the list, and of files on either.
  const [disk, listDisk] = [tail.readUInt16LE(at + 4), tail.readUInt16LE(at + 6)]
  if (disk !== 0 || listDisk !== 0 || tail.readUInt16LE(at + 8) !== tail.readUInt16LE(at + 10))
    throw new RefusedArchive(SPLIT)
  const start = tail.readUInt32LE(at + 16)
  return checked({ start, end: start + tail.readUInt32LE(at + 12) }, end)
}

function commentEnd(tail: Buffer, at: number): number {
  return at + BYTES + tail.readUInt16LE(at + 20)
}

/** The same of a zip in ZIP64 (APPNOTE 4.3.14), whose record stands before the locator. */
function wideDirectory(tail: Buffer, { at, offset }: { at: number; offset: number }): Directory {
  const record = at - offset
  if (record < 0 || record + 56 > tail.length)
    throw new RefusedArchive(
      'has its list of files at a place that is not there. It is damaged: ask for it again.',
    )
  if (tail.readUInt32LE(record + 16) !== 0 || tail.readUInt32LE(record + 20) !== 0)
    throw new RefusedArchive(SPLIT)
  const start = Number(tail.readBigUInt64LE(record + 48))
  return checked({ start, end: start + Number(tail.readBigUInt64LE(record + 40)) }, at)
}

function checked(directory: Directory, end: number): Directory {
  if (directory.end === end) return directory
  throw new RefusedArchive(
    'says that its list of files ends elsewhere than it does: it is damaged, or hides files. Ask for it again.',
  )
}
