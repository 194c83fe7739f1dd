import { beginsWith } from '../../file/bytes/begins-with.ts'
import type { Opaque, Unreadable } from '../../schema/metadata-facts.ts'

export interface StoredPreview {
  readonly where: string
  /** A file with the preview; null when it is stored in a form that is not read. */
  readonly picture: Buffer | null
  /** Which page of that file it is, from 0. */
  readonly page?: number
}

/** The metadata blocks of a file as they stand in it; views into the file where they can be. */
export interface RawBlocks {
  /** TIFF structures, each with where it stands. */
  readonly exif: readonly { readonly where: string; readonly tiff: Buffer; readonly isFile?: true }[]
  readonly xmp: readonly { readonly where: string; readonly packet: Buffer }[]
  /** Photoshop image resource blocks. */
  readonly resources: Buffer | null
  /** An IIM block outside of the image resources. */
  readonly iim: Buffer | null
  /** PNG text by keyword. */
  readonly texts: ReadonlyMap<string, string>
  /** JPEG comment segments that are not blank. */
  readonly comments: number
  /** Previews that belong to the container. */
  readonly previews: readonly StoredPreview[]
  readonly opaque: readonly Opaque[]
  readonly unreadable: readonly Unreadable[]
}

export const NO_BLOCKS: RawBlocks = {
  exif: [],
  xmp: [],
  resources: null,
  iim: null,
  texts: new Map(),
  comments: 0,
  previews: [],
  opaque: [],
  unreadable: [],
}

/**
 * What follows the picture's end in the file, where anything can stand: a second picture, a film, a vendor's data.
 * @param tail the end of the file; NULs alone are padding
 */
export function trailer(tail: Buffer): Opaque[] {
  const isPadding = tail.every((byte) => byte === 0)
  return isPadding ? [] : [{ where: 'data after the end of the picture', bytes: tail.length }]
}

/** By what a picture begins that can hide in a value of another kind. @source ITU-T T.81, B.1.1.3; PNG, third edition, 5.2. */
const PICTURES = ['\xff\xd8\xff', '\x89PNG\r\n\x1a\n']

/** The picture that a value is, where nobody looks for one; none when it is no picture. */
export function hiddenPicture(where: string, value: Buffer): StoredPreview[] {
  return PICTURES.some((start) => beginsWith(value, start)) ? [{ where, picture: value }] : []
}
