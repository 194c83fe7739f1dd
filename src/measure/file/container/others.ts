import type { Decodable } from '../../schema/formats.ts'
import type { Other } from '../../schema/others.ts'
import { brandsOf, readBoxes } from '../bytes/boxes.ts'
import { readPng } from '../bytes/png.ts'
import { readRiff } from '../bytes/riff.ts'
import { readSegments } from '../bytes/segments.ts'
import { furtherPictures } from './image-items.ts'
import { furtherPages } from './pages.ts'
import { sniff } from './sniff.ts'
import { endOfTiff } from './tiff-end.ts'

/** What pictures and archives begin with. @source as in sniff.ts; ZIP: APPNOTE.TXT 6.3, 4.3.7; 7z and RAR from memory. */
const BEGINNINGS = [
  '\xff\xd8\xff',
  '\x89PNG\r\n\x1a\n',
  'GIF8',
  'RIFF',
  'II\x2a\0',
  'MM\0\x2a',
  '%PDF-',
  'PK\x03\x04',
  '7z\xbc\xaf\x27\x1c',
  'Rar!\x1a\x07',
]
const ARCHIVES: Readonly<Record<string, string>> = { PK: 'zip', '7z': '7z', Ra: 'rar' }

/** Where a film or a picture in boxes begins: the size of its first box, before the type. @source ISO/IEC 14496-12, 4.3. */
const FTYP = { type: 'ftyp', before: 4 } as const

/** What a document begins with, anywhere in the first bytes of a file. @source ISO 32000-1, Annex H, note 13 to 7.5.2: within the first 1024 bytes. */
const DOCUMENT = { mark: '%PDF-', within: 1024 } as const

/** Where the first segment of a JPEG has its content: behind two markers and its length. @source ITU-T T.81, B.1.1.4. */
const FIRST_SEGMENT = 6

/** The record that ends a ZIP archive, its length without a comment, and the longest comment, bytes. @source APPNOTE.TXT 6.3, 4.3.16. */
const ZIP_END = { mark: 'PK\x05\x06', length: 22, longestComment: 65_535 } as const

/**
 * The pictures and archives that a file holds beside the picture that every reader shows: behind its end, as further pages
 * or items, or as an archive, which is read from the file's end. Never throws: what can't be read is the decoder's affair.
 */
export function othersIn(format: Decodable, content: Buffer): Other[] {
  const others = [
    ...itemsOf(format, content),
    ...beforehand(content),
    ...behind(endOf(format, content), content),
  ]
  const hasArchive = others.some(({ what }) => Object.values(ARCHIVES).includes(what))
  return endsAsZip(content) && !hasArchive ? [...others, { what: 'zip', count: 1, bytes: null }] : others
}

function itemsOf(format: Decodable, content: Buffer): Other[] {
  try {
    const count = format === 'tiff' ? furtherPages(content) : format === 'avif' ? furtherPictures(content) : 0
    const items = count > 0 ? [{ what: format === 'tiff' ? 'page' : 'item', count, bytes: null }] : []
    return format === 'avif' ? [...items, ...filmsOf(content)] : items
  } catch (error) {
    if (error instanceof RangeError) return []
    throw error
  }
}

/** Tracks beside the picture, which programs play in its place, or a second file. @source ISO/IEC 14496-12, 8.2.1; AV1 Image File Format, 3. */
function filmsOf(avif: Buffer): Other[] {
  const types = readBoxes(avif).boxes.map(({ type }) => type)
  const isFilm = types.includes('moov') || types.lastIndexOf(FTYP.type) > 0
  return isFilm ? [{ what: 'movie', count: 1, bytes: null }] : []
}

/** A document that begins within the picture's header. */
function beforehand(content: Buffer): Other[] {
  const at = content.subarray(0, DOCUMENT.within).indexOf(DOCUMENT.mark, 0, 'latin1')
  return at > 0 ? [{ what: 'pdf', count: 1, bytes: null }] : []
}

/** Where the picture's own bytes end; the end of the file where only its reader can tell. */
function endOf(format: Decodable, content: Buffer): number {
  switch (format) {
    case 'jpeg':
      return content.length - readSegments(content).trailing
    case 'png':
      return content.length - readPng(content).trailing
    case 'webp':
      return readRiff(content).end
    case 'avif':
      return readBoxes(content).end
    case 'tiff':
      return endOfTiff(content)
  }
}

/** The first picture or archive behind a place. */
function behind(end: number, content: Buffer): Other[] {
  if (end >= content.length) return []
  const tail = content.subarray(end)
  const starts = [...BEGINNINGS.map((beginning) => firstOf(tail, beginning)), boxesAt(tail)]
  const at = Math.min(...starts.filter((start) => start >= 0))
  if (at === Infinity) return []
  const found = tail.subarray(at)
  const what = ARCHIVES[found.toString('latin1', 0, 2)] ?? sniff(found) ?? 'movie'
  return [{ what, count: 1, bytes: found.length }]
}

function firstOf(tail: Buffer, beginning: string): number {
  let at = tail.indexOf(beginning, 0, 'latin1')
  while (at >= 0 && !isSound(tail.subarray(at))) at = tail.indexOf(beginning, at + 1, 'latin1')
  return at
}

/** Three bytes come by chance: a JPEG's first segment is followed by another marker. RIFF has other content too. */
function isSound(start: Buffer): boolean {
  if (start[0] === 0xff) return start.length > FIRST_SEGMENT && start[4 + start.readUInt16BE(4)] === 0xff
  return start.toString('latin1', 0, 4) !== 'RIFF' || start.toString('latin1', 8, 12) === 'WEBP'
}

function boxesAt(tail: Buffer): number {
  const at = tail.indexOf(FTYP.type, 0, 'latin1') - FTYP.before
  return at >= 0 && brandsOf(tail.subarray(at)).length > 0 ? at : -1
}

function endsAsZip(content: Buffer): boolean {
  const end = content.subarray(Math.max(0, content.length - ZIP_END.length - ZIP_END.longestComment))
  const at = end.lastIndexOf(ZIP_END.mark, undefined, 'latin1')
  return at >= 0 && at + ZIP_END.length <= end.length
}
