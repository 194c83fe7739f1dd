import { readDirectory, type TiffDirectory } from '../bytes/tiff.ts'
import { decodeText, isBlank } from './text.ts'

/** The directories of an Exif block (CIPA DC-008, 4.5.2 and 4.6.3) that hold what is read here. */
export type ExifDirectory = 'main' | 'exif' | 'gps' | 'thumbnail'

export interface Exif extends Readonly<Record<ExifDirectory, TiffDirectory | null>> {
  readonly main: TiffDirectory
  /** The TIFF structure that offsets count from. */
  readonly tiff: Buffer
  /** A directory or a value that it points to is not within the block, there are directories that are not read, or a tag stands twice in one. */
  readonly damaged: boolean
}

/** Tags that point to further directories. @source CIPA DC-008 (Exif), 4.6.3. */
const POINTERS = { exif: 0x8769, gps: 0x8825 } as const
/** Longest text that is read, bytes. @choice a JPEG segment's, so that a hostile one is cheap. */
const MAX_TEXT = 65_536
/** Tag of what a camera maker keeps for itself. @source CIPA DC-008 (Exif), 4.6.5, MakerNote. */
export const MAKER_NOTE = 0x927c

/**
 * Reads the directories of an Exif block, or of a TIFF file, whose first directory is one. Only these four are ever
 * read, each once, so directories that point at each other do no harm. Null when it is no TIFF structure.
 * @param chained whether the second directory of the chain is the thumbnail's, as in Exif; in a TIFF file it is the
 *   next page
 */
export function readExif(tiff: Buffer, chained: boolean): Exif | null {
  const main = readDirectory(tiff)
  if (!main) return null
  const thumbnail = chained && main.next !== null ? readDirectory(tiff, main.next) : null
  const exif = follow(tiff, [main, thumbnail], POINTERS.exif)
  // The standard has it in the main directory, but readers follow it from wherever it stands.
  const gps = follow(tiff, [main, whole(exif), thumbnail], POINTERS.gps)
  const lost = [exif, gps].includes('lost') || (chained && main.next !== null && thumbnail === null)
  const isLonger =
    thumbnail !== null && thumbnail.next !== null && !isVoid(readDirectory(tiff, thumbnail.next))
  const found = { main, exif: whole(exif), gps: whole(gps), thumbnail }
  const damaged =
    lost || isLonger || Object.values(found).some((directory) => directory !== null && lacksValues(directory))
  return { ...found, tiff, damaged }
}

/** Programs that leave the pointer out have the first bytes of something else there. */
function isVoid(directory: TiffDirectory | null): boolean {
  return directory === null || directory.tags.length === 0 || !directory.whole
}

function whole(directory: TiffDirectory | 'lost' | null): TiffDirectory | null {
  return directory === 'lost' ? null : directory
}

/** The directory that a pointer in one of these leads to; lost when it leads nowhere, or several lead to different ones. */
function follow(
  tiff: Buffer,
  directories: readonly (TiffDirectory | null)[],
  pointer: number,
): TiffDirectory | 'lost' | null {
  const pointing = directories.filter((directory) => directory?.tags.includes(pointer))
  if (pointing.length === 0) return null
  const places = new Set(pointing.map((directory) => directory?.numbers(pointer)?.[0]))
  const [place] = places
  return (place === undefined || places.size > 1 ? null : readDirectory(tiff, place)) ?? 'lost'
}

/** Maker notes are nobody's to vouch for: programs that move them leave them torn. */
function lacksValues(directory: TiffDirectory): boolean {
  if (directory.repeated.length > 0) return true
  return directory.tags.some((tag) => tag !== MAKER_NOTE && directory.bytes(tag) === null)
}

/**
 * The text of a tag; null when it is absent or blank. Exif asks for ASCII, the MWG Guidelines 2.0 for UTF-8, and
 * programs write what they have.
 */
export function exifText(directory: TiffDirectory | null, tag: number): string | null {
  return exifTexts(directory, tag)[0] ?? null
}

/** The texts of a tag that NULs divide, as Copyright's photographer and editor (CIPA DC-008, 4.6.4 D). */
export function exifTexts(directory: TiffDirectory | null, tag: number): string[] {
  const bytes = directory?.bytes(tag)
  if (!bytes) return []
  return decodeText(bytes.subarray(0, MAX_TEXT))
    .split('\0')
    .map((text) => text.trim())
    .filter((text) => text !== '')
}

/** Whether a tag holds more than NULs and spaces, with which cameras fill what they have nothing for. */
export function isFilled(directory: TiffDirectory | null, tag: number, skip = 0): boolean {
  const bytes = directory?.bytes(tag)
  return bytes ? !isBlank(bytes.subarray(skip)) : false
}
