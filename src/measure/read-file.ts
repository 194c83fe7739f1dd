import { createHash } from 'node:crypto'
import { isDecodable, sniff } from './container/sniff.ts'
import { readContent } from './content.ts'
import type { DecodedPicture } from './decoded-picture.ts'
import type { FaultKind } from './fault.ts'
import { type Limits, readImage } from './image.ts'
import { type FileMeasurements, MEASURER_VERSION } from './measurements.ts'

export interface Source {
  /** Absolute. */
  readonly path: string
  /** Relative to the delivery root, with /. */
  readonly file: string
}

export interface ReadOptions {
  /** Whether to decode to the last row, which alone tells that a picture is intact. */
  readonly decode: boolean
  readonly limits?: Limits
}

export interface MeasuredFile {
  readonly measurements: FileMeasurements
  /** Null when decoding was not asked for, or when there is a `fault`. */
  readonly pixels: DecodedPicture | null
  /** The bytes of a picture in one of the decodable formats, for what else is read from them; null for any other file. */
  readonly content: Buffer | null
}

/**
 * A quarter of a gigabyte, and a little more than the largest camera sensors give (151 million pixels, from memory);
 * decoded to RGB that is half a gigabyte.
 */
export const LIMITS: Limits = { bytes: 256 * 1024 * 1024, pixels: 160_000_000 }

const UNKNOWN = {
  sha256: null,
  format: null,
  widthPx: null,
  heightPx: null,
  orientationTag: null,
  ppi: null,
  bitsPerChannel: null,
  channels: null,
  hasAlpha: null,
  color: null,
  jpeg: null,
  intact: null,
} satisfies Partial<FileMeasurements>

const NOTHING_READ = { pixels: null, content: null }

/**
 * Measures a file as far as its header and bytes go, from one read and at most one decode. Never rejects: a file that
 * can't be read as a whole picture has a `fault`, and null for whatever could not be told.
 */
export async function measureFile(
  { path, file }: Source,
  { decode, limits = LIMITS }: ReadOptions,
): Promise<MeasuredFile> {
  const known = { measurer: MEASURER_VERSION, file, ...UNKNOWN }
  const content = await readContent(path, limits.bytes)
  if ('fault' in content) return { measurements: { ...known, ...content }, ...NOTHING_READ }

  const { bytes, data } = content
  const facts = { ...known, bytes, sha256: createHash('sha256').update(data).digest('hex') }
  const unfit = (kind: FaultKind, format: string | null): MeasuredFile => ({
    measurements: { ...facts, format, fault: { kind, detail: '' } },
    ...NOTHING_READ,
  })
  const format = sniff(data)
  if (format === 'lfs-pointer') return unfit('lfs-pointer', null)
  if (format === null) return unfit('not-a-picture', null)
  if (!isDecodable(format)) return unfit('format', format)

  const { pixels, ...image } = await readImage(data, format, decode, limits.pixels)
  return { measurements: { ...facts, format, ...image }, pixels, content: data }
}
