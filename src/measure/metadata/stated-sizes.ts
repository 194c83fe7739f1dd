import type { ExifDirectory } from '../file/exif/exif.ts'
import type { StatedSize } from '../schema/metadata-facts.ts'
import type { Blocks } from './blocks/blocks.ts'
import { xmpText } from './formats/xmp.ts'

export interface StoredSize {
  /** As stored, before any orientation. */
  readonly width: number
  readonly height: number
  /** Whether the orientation tag lays the picture on its side. */
  readonly onItsSide: boolean
}

/**
 * Tags that state a size.
 * @source CIPA DC-008 (Exif), 4.6.5 B: PixelXDimension and PixelYDimension, width and height of the meaningful picture; 4.6.4 A:
 * ImageWidth and ImageLength, which a JPEG does without.
 */
const IN_EXIF: readonly (readonly [ExifDirectory, width: number, height: number, name: string])[] = [
  ['exif', 0xa002, 0xa003, 'EXIF PixelXDimension x PixelYDimension'],
  ['main', 0x0100, 0x0101, 'EXIF ImageWidth x ImageLength'],
]
const IN_XMP = [
  ['exif:PixelXDimension', 'exif:PixelYDimension'],
  ['tiff:ImageWidth', 'tiff:ImageLength'],
] as const

export function statedSizes({ exif, xmp }: Blocks, size: StoredSize): StatedSize[] {
  const inExif = exif.flatMap((block) =>
    IN_EXIF.map(([directory, width, height, where]) => {
      const numbers = [width, height].map((tag) => block[directory]?.numbers(tag)?.[0])
      return stated(where, numbers[0], numbers[1], size)
    }),
  )
  const inXmp = xmp.flatMap((packet) =>
    IN_XMP.map(([width, height]) => {
      const numbers = [width, height].map((name) => Number(xmpText(packet, name) ?? Number.NaN))
      return stated(`XMP ${width} x ${height}`, numbers[0], numbers[1], size)
    }),
  )
  return [...inExif, ...inXmp].filter((one) => one !== null)
}

/** Zeros, as some programs leave, and what is no number state nothing. */
function stated(where: string, widthPx = 0, heightPx = 0, size: StoredSize): StatedSize | null {
  if (![widthPx, heightPx].every((px) => Number.isSafeInteger(px) && px > 0)) return null
  const asStored = widthPx === size.width && heightPx === size.height
  // Programs disagree on which way round it is for a picture that is turned when it is shown.
  const asShown = size.onItsSide && widthPx === size.height && heightPx === size.width
  return { where, widthPx, heightPx, stale: !asStored && !asShown }
}
