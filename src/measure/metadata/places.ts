import { type ExifDirectory, isFilled } from '../file/exif/exif.ts'
import type { Places } from '../schema/metadata-facts.ts'
import { PRIVATE_ITEMS, type PrivateItem } from '../schema/private-items.ts'
import type { Blocks } from './blocks/blocks.ts'
import { PRIVATE_PLACES, type PrivatePlaces } from './formats/private-places.ts'

/** An item of its own, although its namespace is that of the develop settings. */
const RAW_FILE_NAME = 'crs:RawFileName'

/** Directories whose tags share their numbers: programs write them into any of these, and readers take them from there. */
const SHARED: readonly ExifDirectory[] = ['main', 'exif', 'thumbnail']

/** Before the names of Exif's tags where a PNG has their values as texts, as ImageMagick writes them; common practice, no source. */
const AS_TEXT = 'exif:'

/** Every place in which each private item stands, in the order of {@link PRIVATE_ITEMS}; absent items are left out. */
export function placesOf(blocks: Blocks, previews: readonly { readonly where: string }[]): Places[] {
  const found = (item: PrivateItem): string[] => {
    if (item === 'preview') return previews.map(({ where }) => where)
    const where = placesIn(blocks, PRIVATE_PLACES[item])
    return item === 'comments' && blocks.comments > 0 ? [...where, 'JPEG comment'] : where
  }
  return PRIVATE_ITEMS.map((item) => ({ item, where: [...new Set(found(item))] })).filter(
    ({ where }) => where.length > 0,
  )
}

function placesIn(blocks: Blocks, { exif = [], iim = [], xmp = [], png = [] }: PrivatePlaces): string[] {
  const filled = exif.filter(([directory, tag, , skip]) =>
    (SHARED.includes(directory) ? SHARED : [directory]).some((one) =>
      blocks.exif.some((block) => isFilled(block[one], tag, skip)),
    ),
  )
  const keywords = blocks.texts.size === 0 ? [] : [...png, ...exif.map(([, , name]) => `${AS_TEXT}${name}`)]
  return [
    ...filled.map(([, , name]) => `EXIF ${name}`),
    ...iim
      .filter(([dataset]) => blocks.iim?.values(dataset).length)
      .map(([dataset, name]) => `IPTC 2:${dataset} ${name}`),
    ...xmp.filter((name) => stands(blocks, name)).map((name) => `XMP ${name}`),
    ...keywords.filter((keyword) => blocks.texts.has(keyword)).map((keyword) => `PNG text ${keyword}`),
  ]
}

/** Wherever it stands, also within the metadata of a component. */
function stands({ xmp }: Blocks, name: string): boolean {
  if (!name.endsWith('*')) return xmp.some(({ names }) => names.has(name))
  const namespace = name.slice(0, -1)
  const counts = (one: string) => one.startsWith(namespace) && one !== RAW_FILE_NAME
  return xmp.some(({ names }) => [...names].some(counts))
}
