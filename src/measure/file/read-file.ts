import { createHash } from 'node:crypto'
import type { FileMemory } from '../../files/file-memory.ts'
import type { FaultKind } from '../schema/fault.ts'
import { isDecodable, isRefused, type WorthDecoding } from '../schema/formats.ts'
import type { FileMeasurements } from '../schema/measurements.ts'
import type { Wanted } from '../schema/store.ts'
import { knownOf } from '../schema/unmeasured.ts'
import { sniff } from './container/sniff.ts'
import { type Content, readContent } from './content.ts'
import type { DecodedPicture } from './decoded-picture.ts'
import type { Limits } from './examine.ts'
import { readImage } from './image.ts'
import type { PictureParts } from './picture-parts.ts'

export interface Source extends Wanted {
  /** Absolute. */
  readonly path: string
  /** Where it leads, when it is a link that must not be followed: "out of the delivery". */
  readonly astray?: string
  /** Whether no file that it is compared with has its size: it then is not hashed for that. */
  readonly isUnlikeOthers?: boolean
}

export interface ReadOptions {
  /** Whether to decode to the last row, which alone tells that a picture is intact. */
  readonly decode: boolean
  /** Whether a JPEG is looked at in parts, without all of its pixels. */
  readonly inParts?: boolean
  readonly formats?: WorthDecoding
  readonly limits?: Limits
  /** Memory that decoding may take just now, in bytes. */
  readonly share?: number | undefined
}

export interface MeasuredFile {
  readonly measurements: FileMeasurements
  /** Null when decoding was not asked for, when there is a `fault`, and of a picture in parts. */
  readonly pixels: DecodedPicture | null
  readonly parts: PictureParts | null
  /** The bytes of a picture in one of the decodable formats, for what else is read from them; null for any other file. */
  readonly content: Buffer | null
}

const MIB = 1024 ** 2

/**
 * What is read by default.
 * @choice a quarter of a gigabyte, and a little more than the largest camera sensors give (151 million pixels, from memory), of which
 * a plain JPEG takes 432 MiB to decode, and a TIFF of 80 million pixels in 16 bits 687 MiB; with two workers the whole process stays under 1.5 GB
 * (npm run hostile).
 */
export const LIMITS: Limits = { bytes: 256 * MIB, pixels: 160_000_000, memory: 700 * MIB }

const NOTHING_READ = { pixels: null, parts: null, content: null }

/** A file's bytes and their hash, null unless it was asked for, or why they can't be had. */
export type FileContent = Content & {
  readonly sha256: string | null
  /** Of a frame that a raw file embeds in a smaller size, that of the sensor. */
  readonly fullSize?: FileMeasurements['fullSize'] | null
}

/**
 * Reads a whole file and hashes it; otherwise as {@link readContent}.
 * @param memory where its bytes are put, until the next file is read into it; new memory unless told
 * @param isHashed whether anyone asks for the hash, which takes as long as all else that is read from a file's header
 */
export async function readHashed(
  path: string,
  maxBytes: number = LIMITS.bytes,
  memory: FileMemory | null = null,
  isHashed = true,
): Promise<FileContent> {
  const content = await readContent(path, maxBytes, memory)
  if ('fault' in content || !isHashed) return { ...content, sha256: null }
  return { ...content, sha256: createHash('sha256').update(content.data).digest('hex') }
}

/**
 * Measures a file as far as its header and bytes go, with at most one decode. A file that can't be read as a whole
 * picture has a `fault`, and null for whatever could not be told.
 * @param file relative to the delivery root, with /
 * @throws TooMuchAtOnce when decoding would take more memory than its share
 */
export async function measureFile(
  file: string,
  content: FileContent,
  { decode, inParts = false, formats, limits = LIMITS, share = Infinity }: ReadOptions,
): Promise<MeasuredFile> {
  const known = knownOf(file)
  if ('fault' in content) {
    const { bytes, fault } = content
    return { measurements: { ...known, bytes, fault }, ...NOTHING_READ }
  }
  const { bytes, data, sha256, fullSize } = content
  const facts = { ...known, bytes, sha256, ...(fullSize && { fullSize }) }
  const unfit = (kind: FaultKind, format: string | null): MeasuredFile => ({
    measurements: { ...facts, format, fault: { kind, detail: '' } },
    ...NOTHING_READ,
  })
  const format = sniff(data)
  if (format === 'lfs-pointer') return unfit('lfs-pointer', null)
  if (format === null) return unfit('not-a-picture', null)
  if (!isDecodable(format) || isRefused(format, formats)) return unfit('format', format)

  const { pixels, parts, ...image } = await readImage(data, format, { decode, inParts, limits, share })
  return { measurements: { ...facts, format, ...image }, pixels, parts, content: data }
}
