import type { Entry } from './ifd.ts'

/** The blocks of metadata of one file, ready to be put into its container. */
export interface Blocks {
  readonly icc: Buffer
  /** A TIFF structure, without a container's own head. */
  readonly exif: Buffer
  /** The entries of its two directories, which a TIFF has among its own. */
  readonly entries: { readonly main: readonly Entry[]; readonly exif: readonly Entry[] }
  /** A packet in UTF-8. */
  readonly xmp: Buffer
  /** IPTC-IIM datasets. */
  readonly iim: Buffer
  /** Resolution tag, pixels per inch; null for none. */
  readonly ppi: number | null
}
