import { type Exif, type ExifDirectory, isFilled } from '../file/exif/exif.ts'
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
  const tags = new Set(blocks.exif.flatMap(tagsOf))
  const found = (item: PrivateItem): string[] => {
    if (item === 'preview') return previews.map(({ where }) => where)
    const where = placesIn(blocks, tags, PRIVATE_PLACES[item])
    return item === 'comments' && blocks.comments > 0 ? [...where, 'JPEG comment'] : where
  }
  return PRIVATE_ITEMS.map((item) => ({ item, where: [...new Set(found(item))] })).filter(
    ({ where }) => where.length > 0,
  )
}

function tagsOf({ main, exif, gps, thumbnail }: Exif): number[] {
  return [main, exif, gps, thumbnail].flatMap((directory) => directory?.tags ?? [])
}

/** @param tags of all directories: most private ones stand in none, which is soon told */
function placesIn(
  blocks: Blocks,
  tags: ReadonlySet<number>,
  { exif = [], iim = [], xmp = [], png = [] }: PrivatePlaces,
): string[] {
  const where: string[] = []
  for (const [directory, tag, name, skip] of exif) {
    if (!tags.has(tag)) continue
    const directories = SHARED.includes(directory) ? SHARED : [directory]
    if (blocks.exif.some((block) => directories.some((one) => isFilled(block[one], tag, skip))))
      where.push(`EXIF ${name}`)
  }
  if (blocks.iim)
    for (const [dataset, name] of iim)
      if (blocks.iim.values(dataset).length > 0) where.push(`IPTC 2:${dataset} ${name}`)
  if (blocks.xmp.length > 0)
    where.push(...xmp.filter((name) => stands(blocks, name)).map((name) => `XMP ${name}`))
  if (blocks.texts.size > 0) {
    const keywords = [...png, ...exif.map(([, , name]) => `${AS_TEXT}${name}`)]
    where.push(...keywords.filter((one) => blocks.texts.has(one)).map((one) => `PNG text ${one}`))
  }
  return where
}

/** Wherever it stands, also within the metadata of a component. */
function stands({ xmp }: Blocks, name: string): boolean {
  if (!name.endsWith('*')) return xmp.some(({ names }) => names.has(name))
  const namespace = name.slice(0, -1)
  const counts = (one: string) => one.startsWith(namespace) && one !== RAW_FILE_NAME
  return xmp.some(({ names }) => [...names].some(counts))
}
