/** Where our readers and exifr 7.1.3 say different things of a field, and who is right. */
export interface Difference {
  readonly name: string
  readonly why: string
  /** @param own the readings that our reader allows, undefined when it finds no such field; so with theirs */
  readonly explains: (
    place: string,
    own: readonly string[] | undefined,
    theirs: string | undefined,
  ) => boolean
}

export const DIFFERENCES: readonly Difference[] = [
  {
    name: 'XMP texts as numbers and truth values',
    why: 'ISO 16684-1, 8.2.1: every simple value is text. exifr makes "0221" 221 and "True" true, which loses zeros.',
    explains: (place, own, theirs) =>
      place.startsWith('XMP ') &&
      own?.length === 1 &&
      theirs !== undefined &&
      (String(Number(own[0])) === theirs ||
        (/^(?:true|false)$/.test(theirs) && own[0]?.toLowerCase() === theirs)),
  },
  {
    name: 'XML character references in XMP',
    why: 'XML 1.0, 4.1: "&#xD;" is a carriage return. exifr leaves references as they are.',
    explains: (place, own, theirs) =>
      place.startsWith('XMP ') &&
      theirs !== undefined &&
      own?.includes(
        theirs.replace(/&#x([0-9A-F]+);/g, (_, hex) => String.fromCodePoint(Number.parseInt(hex, 16))),
      ) === true,
  },
  {
    name: 'rdf:parseType as a field',
    why: 'ISO 16684-1, 7.9.2.2: the attribute says how the element is written and is no field of its structure.',
    explains: (place, own, theirs) =>
      place.endsWith('/parseType') && own === undefined && theirs === 'Resource',
  },
  {
    name: 'blank Exif texts',
    why: 'Cameras fill what they have nothing for with NULs or blanks. Both give no text; here the tag is there all the same.',
    explains: (place, own, theirs) => place.startsWith('EXIF ') && own?.[0] === '' && theirs === undefined,
  },
]
