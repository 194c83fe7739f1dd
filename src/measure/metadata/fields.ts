import type { FieldId } from '../schema/metadata-facts.ts'

/** Where a field stands in each kind of metadata. */
export interface FieldPlaces {
  /** Tag of Exif's main directory. */
  readonly exif?: { readonly tag: number; readonly name: string }
  /** Dataset of record 2, and the most bytes that IIM allows one value. */
  readonly iim?: { readonly dataset: number; readonly name: string; readonly limit: number }
  readonly xmp: string
  /** Keyword of PNG text. */
  readonly png?: string
}

const iim = (dataset: number, name: string, limit: number) => ({ dataset, name, limit })

export type TextField = Exclude<FieldId, 'person-shown' | 'capture-time' | 'rating'>

/**
 * Where each field is kept; limits in bytes.
 * @source MWG Guidelines for Handling Image Metadata 2.0 (2010), chapter 5; IPTC Photo Metadata Standard, "Field mappings"; limits of
 * IIM 4.2, chapter 6; PNG, third edition, 11.3.3.2 (keywords).
 */
export const FIELD_PLACES: Readonly<Record<TextField, FieldPlaces>> = {
  creator: {
    exif: { tag: 0x013b, name: 'Artist' },
    iim: iim(80, 'By-line', 32),
    xmp: 'dc:creator',
    png: 'Author',
  },
  copyright: {
    exif: { tag: 0x8298, name: 'Copyright' },
    iim: iim(116, 'Copyright Notice', 128),
    xmp: 'dc:rights',
    png: 'Copyright',
  },
  credit: { iim: iim(110, 'Credit', 32), xmp: 'photoshop:Credit' },
  source: { iim: iim(115, 'Source', 32), xmp: 'photoshop:Source' },
  title: { iim: iim(5, 'Object Name', 64), xmp: 'dc:title', png: 'Title' },
  headline: { iim: iim(105, 'Headline', 256), xmp: 'photoshop:Headline' },
  description: {
    exif: { tag: 0x010e, name: 'ImageDescription' },
    iim: iim(120, 'Caption/Abstract', 2000),
    xmp: 'dc:description',
    png: 'Description',
  },
  'alt-text': { xmp: 'Iptc4xmpCore:AltTextAccessibility' },
  'extended-description': { xmp: 'Iptc4xmpCore:ExtDescrAccessibility' },
  keywords: { iim: iim(25, 'Keywords', 64), xmp: 'dc:subject' },
  label: { xmp: 'xmp:Label' },
  'usage-terms': { xmp: 'xmpRights:UsageTerms' },
  'web-statement': { xmp: 'xmpRights:WebStatement' },
}

/** Fields with several values; the others have one. */
export const LISTS: readonly FieldId[] = ['creator', 'keywords', 'person-shown']
