import type { TiffDirectory } from '../../file/bytes/tiff.ts'
import { type Exif, MAKER_NOTE } from '../../file/exif/exif.ts'
import type { Blocks } from '../blocks/blocks.ts'
import { hiddenPicture, type StoredPreview } from '../blocks/raw-blocks.ts'
import { textsOf, type Xmp, type XmpValue } from '../formats/xmp.ts'

/** Tags of a thumbnail: where a compressed one begins and how long it is; an uncompressed one has strips. @source CIPA DC-008 (Exif), 4.6.4 and Table 20. */
const THUMBNAIL = { offset: 0x0201, length: 0x0202, strips: 0x0111 } as const

/** Further directories, where cameras and raw converters keep pictures. @source TIFF Technical Note 1: SubIFDs. */
const SUB_DIRECTORIES = 330

/** Most previews read. @choice some files have three or four; the bound keeps a hostile one cheap, no source. */
const MAX_PREVIEWS = 8

/** All previews of a file: of its Exif blocks, its Photoshop resources, its XMP and its container. */
export function storedPreviews({ exif, xmp, previews }: Blocks): StoredPreview[] {
  return [...exif.flatMap(exifPreviews), ...previews, ...xmp.flatMap(xmpThumbnails)].slice(0, MAX_PREVIEWS)
}

/** The thumbnail's directory is the place for one; readers show those of the others too. */
function exifPreviews({ main, exif, thumbnail, tiff }: Exif): StoredPreview[] {
  const directories = [thumbnail, main, exif].filter((directory) => directory !== null)
  const compressed = directories.flatMap((directory) => {
    const [offset] = directory.numbers(THUMBNAIL.offset) ?? []
    const [length] = directory.numbers(THUMBNAIL.length) ?? []
    if (offset === undefined || length === undefined || length === 0) return []
    const picture = offset + length <= tiff.length ? tiff.subarray(offset, offset + length) : null
    return [{ where: directory === thumbnail ? 'EXIF thumbnail' : 'EXIF preview', picture }]
  })
  const isUncompressed =
    thumbnail !== null &&
    !thumbnail.numbers(THUMBNAIL.length)?.[0] &&
    thumbnail.tags.includes(THUMBNAIL.strips)
  return [
    ...compressed,
    ...(isUncompressed ? [{ where: 'EXIF thumbnail', picture: null }] : []),
    ...(directories.some(({ tags }) => tags.includes(SUB_DIRECTORIES))
      ? [{ where: `TIFF tag ${SUB_DIRECTORIES}`, picture: null }]
      : []),
    ...directories.flatMap(picturesAsValues),
  ]
}

/** Tags whose values begin as a picture does and are none: tables of a JPEG, and the maker's own. @source TIFF Technical Note 2: JPEGTables. */
const NO_PICTURES = [347, MAKER_NOTE]

function picturesAsValues(directory: TiffDirectory): StoredPreview[] {
  return directory.tags
    .filter((tag) => !NO_PICTURES.includes(tag))
    .flatMap((tag) => hiddenPicture(`EXIF tag ${tag}`, directory.bytes(tag) ?? Buffer.alloc(0)))
}

/** ISO 16684-1, 8.4 (Thumbnail): pictures in base 64; in the metadata of a component too. */
function xmpThumbnails({ properties }: Xmp): StoredPreview[] {
  return imagesIn(properties).map((text) => ({
    where: 'XMP thumbnail',
    picture: Buffer.from(text, 'base64'),
  }))
}

function imagesIn(fields: XmpValue['fields']): string[] {
  return [...fields].flatMap(([name, value]) =>
    name === 'xmpGImg:image'
      ? textsOf(value)
      : [...value.items.flatMap((item) => imagesIn(item.fields)), ...imagesIn(value.fields)],
  )
}
