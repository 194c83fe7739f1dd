import { exifTexts } from '../file/exif/exif.ts'
import { clippedList } from '../file/exif/text.ts'
import type { Conflict } from '../schema/metadata-facts.ts'
import type { Blocks } from './blocks/blocks.ts'
import { FIELD_PLACES, LISTS, type TextField } from './fields.ts'
import { oneText, textsOf } from './formats/xmp.ts'
import { splitList } from './split-list.ts'

/** Most values that are compared. @choice each value of one place is looked for among those of the others, so the time grows with the square; no source. */
const MOST_VALUES = 1000

type Kind = 'exif' | 'iim' | 'xmp' | 'png'

/** What each place says of a field, as far as it says something. */
type Voices = Partial<Record<Kind, { readonly where: string; readonly values: readonly string[] }>>

/**
 * The value of a field where Exif, IPTC-IIM and XMP each may say it, as the MWG Guidelines for Handling Image Metadata
 * 2.0 (2010), chapter 5, reconcile them: Exif first; then XMP, unless IIM was changed after XMP was written, which its
 * digest tells; a value that IIM had to cut short is taken whole from XMP. PNG text comes last, which MWG does not know.
 */
export function reconcile(blocks: Blocks, field: TextField, said = voicesOf(blocks, field)): string[] {
  const { iim, ...voices } = said
  const { iimDigest } = blocks
  const changed = iimDigest !== null && blocks.iim !== null && iimDigest !== blocks.iim.digest
  const whole = iim?.values.map((value) => recovered(value, voices.xmp?.values ?? [], field))
  const exif = voices.exif?.values
  const xmp = voices.xmp?.values
  const inOrder = changed ? [exif, whole, xmp] : [exif, xmp, whole]
  return clippedList(inOrder.find((values) => values !== undefined) ?? voices.png?.values ?? [])
}

/** The places that should say the same of a field, when they do not; null when they agree. */
export function conflictOf(
  blocks: Blocks,
  field: TextField,
  { exif, iim, xmp } = voicesOf(blocks, field),
): Conflict | null {
  const others = [...(xmp?.values ?? []), ...(exif?.values ?? [])]
  const whole = iim && { ...iim, values: iim.values.map((value) => recovered(value, others, field)) }
  const told = [exif, whole, xmp].filter((voice) => voice !== undefined)
  if (told.length < 2 || new Set(told.map(({ values }) => comparable(values))).size < 2) return null
  return {
    field,
    values: told.map(({ where, values }) => ({ where, values: clippedList(values) })),
  }
}

/** What each place says of a field. */
export function voicesOf(blocks: Blocks, field: TextField): Voices {
  const { exif, iim, xmp, png } = FIELD_PLACES[field]
  const isList = LISTS.includes(field)
  const voices: Voices = {}
  const add = (kind: Kind, where: string, found: readonly string[]) => {
    const filled = found.filter((value) => value.trim() !== '').slice(0, isList ? MOST_VALUES : 1)
    if (filled.length > 0) voices[kind] = { where, values: filled }
  }
  if (exif) add('exif', `EXIF ${exif.name}`, exifValues(blocks, exif.tag, isList))
  if (iim) add('iim', `IPTC 2:${iim.dataset} ${iim.name}`, blocks.iim?.values(iim.dataset) ?? [])
  add('xmp', `XMP ${xmp}`, xmpValues(blocks, xmp, isList))
  if (png) add('png', `PNG text ${png}`, [blocks.texts.get(png) ?? ''])
  return voices
}

/** Of the first Exif block whose main directory says something. */
function exifValues(blocks: Blocks, tag: number, isList: boolean): string[] {
  const texts = blocks.exif.map(({ main }) => exifTexts(main, tag)).find((found) => found.length > 0) ?? []
  return isList ? texts.flatMap(splitList) : [texts.join('; ')]
}

function xmpValues({ xmp }: Blocks, name: string, isList: boolean): string[] {
  for (const { properties } of xmp) {
    const value = properties.get(name)
    if (!value) continue
    return isList ? textsOf(value) : [oneText(value) ?? '']
  }
  return []
}

/** Longest character of UTF-8, bytes. @source RFC 3629, 3. */
const LONGEST_CHARACTER = 4

/** The longer value that a value is the beginning of, when IIM's limit is why it ends where it does; else itself. */
function recovered(value: string, others: readonly string[], field: TextField): string {
  const limit = FIELD_PLACES[field].iim?.limit ?? Infinity
  // A character that did not fit is left out whole.
  if (Buffer.byteLength(value) <= limit - LONGEST_CHARACTER) return value
  return others.find((other) => other.startsWith(value)) ?? value
}

/** Composed or not, and how words are spaced, makes no difference; nor does the order of a list. */
function comparable(values: readonly string[]): string {
  const texts = values.map((value) => value.normalize('NFC').replace(/\s+/g, ' ').trim())
  return [...new Set(texts)].sort().join('\n')
}
