import { createHash } from 'node:crypto'
import { extname } from 'node:path'
import { MARKER } from '../bytes/jpeg-markers.ts'
import { readSegments } from '../bytes/segments.ts'
import { readDirectory, TAG } from '../bytes/tiff.ts'
import { directoriesOf } from '../bytes/tiff-directories.ts'
import { sniff } from '../container/sniff.ts'
import { hasExifCode } from '../exif/code.ts'
import { isOnItsSide, ORIENTATION } from '../exif/orientation.ts'
import { embeddedJpeg } from './embedded-jpeg.ts'
import { exifBlock } from './exif-block.ts'

/** Names of TIFF files that are pictures themselves. */
const PLAIN_TIFF: readonly string[] = ['.tif', '.tiff']

/** Whether a file is a camera's raw file: by what it says of itself, or a TIFF structure whose name is none of a TIFF file. */
export function isRaw(name: string, content: Buffer): boolean {
  const format = sniff(content)
  if (format === 'raw') return true
  return format === 'tiff' && !PLAIN_TIFF.includes(extname(name).toLowerCase())
}

/** Whether all that a raw file's directories lead to lies within it; true of one that is not built on TIFF, where nobody can tell. */
export function isRawWhole(raw: Buffer): boolean {
  return directoriesOf(raw).every((directory) =>
    STRETCHES.every(([place, length]) => {
      const lengths = directory.numbers(length) ?? []
      return (directory.numbers(place) ?? []).every((at, n) => at + (lengths[n] ?? 0) <= raw.length)
    }),
  )
}

/** Places and lengths of data. @source TIFF 6.0, sections 8, 15 and 22. */
const STRETCHES = [
  [TAG.stripOffsets, TAG.stripByteCounts],
  [TAG.tileOffsets, TAG.tileByteCounts],
  [513, 514],
] as const

/** What a raw file is judged by. */
export interface RawContent {
  /** The largest JPEG that it embeds, with the raw file's orientation and time of capture where it has no Exif of its own. */
  readonly data: Buffer
  /** Hash of that and of the size below: two raw files may embed the same. */
  readonly sha256: string
  /** Size of the sensor's picture as displayed, px; null when the raw file does not say. */
  readonly fullSize: Size | null
}

interface Size {
  readonly widthPx: number
  readonly heightPx: number
}

/** Null when no JPEG is found in it. */
export function rawContent(raw: Buffer): RawContent | null {
  const found = embeddedJpeg(raw)
  if (!found) return null
  const data = withExifOf(raw, found.jpeg)
  const fullSize = fullSizeOf(raw)
  const sha256 = createHash('sha256').update(data).update(JSON.stringify(fullSize)).digest('hex')
  return { data, sha256, fullSize }
}

/** The largest picture that no directory calls a reduced one. */
function fullSizeOf(raw: Buffer): Size | null {
  const [main, ...others] = directoriesOf(raw)
  if (!main) return null
  const sizes = [main, ...others].flatMap((directory) => {
    const [subfile = 0] = directory.numbers(TAG.newSubfileType) ?? []
    const [width] = directory.numbers(EXTENT.width) ?? []
    const [height] = directory.numbers(EXTENT.height) ?? []
    return (subfile & 1) === 1 || !width || !height ? [] : [{ width, height }]
  })
  const [largest] = sizes.toSorted((a, b) => b.width * b.height - a.width * a.height)
  if (!largest) return null
  const { width, height } = largest
  const isAside = isOnItsSide(main.numbers(ORIENTATION)?.[0] ?? null)
  return isAside ? { widthPx: height, heightPx: width } : { widthPx: width, heightPx: height }
}

/** ImageWidth and ImageLength. @source TIFF 6.0, section 8. */
const EXTENT = { width: 256, height: 257 } as const

function withExifOf(raw: Buffer, jpeg: Buffer): Buffer {
  const hasOwn = readSegments(jpeg).apps.some(({ n, payload }) => n === 1 && hasExifCode(payload))
  const main = hasOwn ? null : readDirectory(raw)
  if (!main) return jpeg
  const [at] = main.numbers(EXIF) ?? []
  const exif = at === undefined ? null : readDirectory(raw, at)
  const [orientation = 1] = main.numbers(ORIENTATION) ?? []
  const times = TIMES.flatMap((tag) => {
    const text = exif?.bytes(tag)
    return text ? [[tag, text] as const] : []
  })
  const block = exifBlock(orientation, times)
  const head = Buffer.of(0xff, MARKER.SOI, 0xff, MARKER.APP0 + 1, 0, 0)
  head.writeUInt16BE(block.length + 2, 4)
  return Buffer.concat([head, block, jpeg.subarray(2)])
}

/** The pointer to the Exif directory. @source CIPA DC-008 (Exif), 4.6.3. */
const EXIF = 0x8769

/** Time of capture, its zone and its fraction. @source CIPA DC-008 (Exif), 4.6.5 F and G. */
const TIMES = [0x9003, 0x9011, 0x9291]
