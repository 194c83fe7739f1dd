import type { DecodedPicture } from '../file/decoded-picture.ts'
import { isFilled, MAKER_NOTE } from '../file/exif/exif.ts'
import { isOnItsSide } from '../file/exif/orientation.ts'
import { clippedList } from '../file/exif/text.ts'
import type { Decodable } from '../schema/formats.ts'
import type { Metadata } from '../schema/metadata.ts'
import { type Blocks, readBlocks } from './blocks/blocks.ts'
import { findBlocks } from './blocks/find-blocks.ts'
import type { StoredPreview } from './blocks/raw-blocks.ts'
import { captureTime } from './capture-time.ts'
import { FIELD_PLACES, type TextField } from './fields.ts'
import { oneText, xmpText, xmpTexts } from './formats/xmp.ts'
import { originOf } from './origin.ts'
import { placesOf } from './places.ts'
import { storedPreviews } from './preview/stored-previews.ts'
import { conflictOf, reconcile, voicesOf } from './reconcile.ts'
import { statedSizes } from './stated-sizes.ts'

/** What is known of a file when its metadata are measured. */
export interface MetadataSource {
  readonly content: Buffer
  readonly format: Decodable
  /** Size as displayed. */
  readonly widthPx: number
  readonly heightPx: number
  readonly orientationTag: number | null
  /** Null when it was not decoded. */
  readonly pixels: DecodedPicture | null
}

const FIELDS = Object.keys(FIELD_PLACES) as TextField[]

/** Reads the metadata of a picture and compares its previews with it. Never rejects for what is in the file. */
export async function measureMetadata(source: MetadataSource): Promise<Metadata> {
  const { content, format, widthPx, heightPx, orientationTag, pixels } = source
  const blocks = readBlocks(await findBlocks(format, content))
  const stored = storedPreviews(blocks)
  const previews = stored.length === 0 ? [] : await measured(stored, pixels, orientationTag ?? 1)
  const places = placesOf(blocks, stored)
  const onItsSide = isOnItsSide(orientationTag)
  const size = { width: onItsSide ? heightPx : widthPx, height: onItsSide ? widthPx : heightPx, onItsSide }
  const said = new Map(FIELDS.map((field) => [field, voicesOf(blocks, field)]))
  const all = (field: TextField) => reconcile(blocks, field, said.get(field))
  const one = (field: TextField) => all(field)[0] ?? null
  return {
    creator: all('creator'),
    copyright: one('copyright'),
    credit: one('credit'),
    source: one('source'),
    title: one('title'),
    headline: one('headline'),
    description: one('description'),
    altText: one('alt-text'),
    extendedDescription: one('extended-description'),
    personShown: personShown(blocks),
    keywords: all('keywords'),
    captureTime: captureTime(blocks),
    rating: rating(blocks),
    label: one('label'),
    usageTerms: one('usage-terms'),
    webStatement: one('web-statement'),
    gps: places.some(({ item }) => item === 'coordinates'),
    places,
    conflicts: FIELDS.map((field) => conflictOf(blocks, field, said.get(field))).filter(
      (conflict) => conflict !== null,
    ),
    origin: originOf(blocks),
    statedSizes: statedSizes(blocks, size),
    previews,
    opaque: [...makerNotes(blocks), ...blocks.opaque],
    unreadable: [...blocks.unreadable],
  }
}

async function measured(
  stored: readonly StoredPreview[],
  pixels: DecodedPicture | null,
  orientation: number,
): Promise<Metadata['previews']> {
  // Loaded with the first preview: most files have none, and it brings the decoder along.
  const { measurePreview } = await import('./preview/previews.ts')
  const previews: Metadata['previews'] = []
  // One after the other: they share the decoder with the other files in flight.
  for (const preview of stored) previews.push(await measurePreview(preview, pixels, orientation))
  return previews
}

/** IPTC Photo Metadata Standard: names alone, or each in a structure with more about the person. */
function personShown({ xmp }: Blocks): string[] {
  const names = xmp.flatMap((packet) => xmpTexts(packet, 'Iptc4xmpExt:PersonInImage'))
  const details = xmp.flatMap(
    ({ properties }) => properties.get('Iptc4xmpExt:PersonInImageWDetails')?.items ?? [],
  )
  const detailed = details.map(({ fields }) => {
    const name = fields.get('Iptc4xmpExt:PersonName')
    return (name && oneText(name)) ?? ''
  })
  return clippedList([...names, ...detailed])
}

/** The rating. @source ISO 16684-1, 8.4: -1 for rejected, 0 for unrated, 1 to 5. */
function rating({ xmp }: Blocks): number | null {
  const text = xmp.map((packet) => xmpText(packet, 'xmp:Rating')).find((one) => one !== null) ?? ''
  const value = text.trim() === '' ? Number.NaN : Number(text)
  return value >= -1 && value <= 5 ? value : null
}

/** In a form of their makers'; they hold serial numbers, owners' names and at times places. */
function makerNotes({ exif }: Blocks): Metadata['opaque'] {
  return exif.flatMap((block) => {
    const bytes = isFilled(block.exif, MAKER_NOTE) ? block.exif?.bytes(MAKER_NOTE)?.length : undefined
    return bytes === undefined ? [] : [{ where: 'EXIF MakerNote', bytes }]
  })
}
