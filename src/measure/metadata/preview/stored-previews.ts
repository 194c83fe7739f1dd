import type { Exif } from '../../file/exif/exif.ts'
import type { Blocks } from '../blocks/blocks.ts'
import type { StoredPreview } from '../blocks/raw-blocks.ts'
import { textsOf, type Xmp } from '../formats/xmp.ts'

/** Tags of a thumbnail: where a compressed one begins and how long it is; an uncompressed one has strips. @source CIPA DC-008 (Exif), 4.6.4 and Table 20. */
const THUMBNAIL = { offset: 0x0201, length: 0x0202, strips: 0x0111 } as const

/** Most previews read. @choice some files have three or four; the bound keeps a hostile one cheap, no source. */
const MAX_PREVIEWS = 8

/** All previews of a file: of its Exif blocks, its Photoshop resources, its XMP and its container. */
export function storedPreviews({ exif, xmp, previews }: Blocks): StoredPreview[] {
  return [...exif.flatMap(exifThumbnail), ...previews, ...xmp.flatMap(xmpThumbnails)].slice(0, MAX_PREVIEWS)
}

function exifThumbnail({ thumbnail, tiff }: Exif): StoredPreview[] {
  const where = 'EXIF thumbnail'
  const [offset] = thumbnail?.numbers(THUMBNAIL.offset) ?? []
  const [length] = thumbnail?.numbers(THUMBNAIL.length) ?? []
  if (offset !== undefined && length !== undefined && length > 0) {
    return [
      { where, picture: offset + length <= tiff.length ? tiff.subarray(offset, offset + length) : null },
    ]
  }
  return thumbnail?.tags.includes(THUMBNAIL.strips) ? [{ where, picture: null }] : []
}

/** ISO 16684-1, 8.4 (Thumbnail): pictures in base 64. */
function xmpThumbnails({ properties }: Xmp): StoredPreview[] {
  const items = properties.get('xmp:Thumbnails')?.items ?? []
  return items.flatMap(({ fields }) => {
    const image = fields.get('xmpGImg:image')
    return image
      ? textsOf(image).map((text) => ({ where: 'XMP thumbnail', picture: Buffer.from(text, 'base64') }))
      : []
  })
}
