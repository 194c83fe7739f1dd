import type { FileReport } from '../../judge/report.ts'
import { TooMuchAtOnce } from '../../measure/file/decode-memory.ts'
import { decoder } from '../../measure/file/decoder.ts'
import { LIMITS, readHashed, type Source } from '../../measure/file/read-file.ts'
import type { Measurements } from '../../measure/schema/measurements.ts'
import { opened, viewable } from '../../viewing/viewable.ts'
import { PORTRAITS_PER_PAGE } from './per-page.ts'

/** A small JPEG in sRGB without any metadata. */
export interface SmallPicture {
  readonly widthPx: number
  readonly heightPx: number
  readonly jpeg: Buffer
}

export interface PortraitPictures {
  readonly thumbnail: SmallPicture
  /** For the index of a report of several pages, whose thumbnails lie on the other pages. */
  readonly small?: SmallPicture
  /** The part around the eyes, a pixel for a pixel, where focus or glare is the question. */
  readonly eyes?: SmallPicture
}

/** Pictures by file, as the report names it; none for a file that can't be decoded. */
export type Pictures = ReadonlyMap<string, PortraitPictures>

/** What is looked at of a file whose pictures are made. */
export type Pictured = Pick<FileReport, 'file' | 'measurements' | 'outcomes'>

const THUMBNAIL_EDGE_PX = 400
const SMALL_EDGE_PX = 180
const QUALITY = 72
// In base64 both together stay under 50 kB, which leaves 10 kB of a portrait's 60 kB for text.
const MOST_BYTES = { thumbnail: 20_000, eyes: 16_000, small: 5_000 }
// Wide enough for both eyes of a head that fills a print of 2400 px.
const EYES_WIDTH_PX = 560
const EYES_HEIGHT_PX = 220
const EYE_RULES: readonly string[] = ['eye-focus', 'lens-glare']
const IN_FLIGHT = 3

/**
 * Makes the pictures of a report from the files it is about. They are decoded by the rules and within the memory that
 * measuring has; what can't be, or is not the file that was judged any more, has none. Never rejects for that.
 * @throws the signal's reason when it is aborted
 */
export async function makePictures(
  { files }: { readonly files: readonly Pictured[] },
  sources: readonly Source[],
  signal: AbortSignal,
): Promise<Pictures> {
  const paths = new Map(sources.map(({ file, path }) => [file, path]))
  const made = new Map<string, PortraitPictures>()
  const isSplit = files.length > PORTRAITS_PER_PAGE
  const make = async (waiting: Pictured[], atOnce: number): Promise<Pictured[]> => {
    const large: Pictured[] = []
    const work = async () => {
      for (let next = waiting.pop(); next; next = waiting.pop()) {
        signal.throwIfAborted()
        const path = paths.get(next.file)
        const room = { share: LIMITS.memory / atOnce, isSplit }
        const pictures = path === undefined ? null : await picturesOf(path, next, room)
        if (pictures === 'too much at once') large.push(next)
        else if (pictures) made.set(next.file, pictures)
      }
    }
    await Promise.all(Array.from({ length: atOnce }, work))
    return large
  }
  const large = await make(
    files.filter(({ measurements }) => measurements.fault === null),
    IN_FLIGHT,
  )
  await make(large, 1)
  return made
}

interface Room {
  /** Memory that it may take, in bytes. */
  readonly share: number
  /** Whether there will be an index, which shows it small. */
  readonly isSplit: boolean
}

async function picturesOf(
  path: string,
  file: Pictured,
  { share, isSplit }: Room,
): Promise<PortraitPictures | 'too much at once' | null> {
  const { bytes, sha256, format } = file.measurements
  const isAlone = share >= LIMITS.memory
  if (!isAlone && bytes > share) return 'too much at once'
  const content = await readHashed(path, bytes)
  if ('fault' in content || content.sha256 !== sha256) return null
  try {
    const data = await viewable(content.data, format, isAlone ? undefined : share - content.bytes)
    if (!data) return null
    const within = (picture: Buffer, edge: number) =>
      opened(picture).resize(edge, edge, { fit: 'inside', withoutEnlargement: true })
    const thumbnail = await encoded(within(data, THUMBNAIL_EDGE_PX), MOST_BYTES.thumbnail)
    const region = asksForEyes(file) ? eyesRegion(file.measurements) : null
    const { small, eyes } = MOST_BYTES
    return {
      thumbnail,
      ...(isSplit && { small: await encoded(within(thumbnail.jpeg, SMALL_EDGE_PX), small) }),
      ...(region && { eyes: await encoded(opened(data).extract(region), eyes) }),
    }
  } catch (error) {
    // It was whole when it was measured; a report without this picture is better than none.
    return error instanceof TooMuchAtOnce ? 'too much at once' : null
  }
}

function asksForEyes({ outcomes }: Pictured): boolean {
  return outcomes.some(
    ({ rule, verdict }) => EYE_RULES.includes(rule) && (verdict === 'fail' || verdict === 'unsure'),
  )
}

interface Region {
  readonly left: number
  readonly top: number
  readonly width: number
  readonly height: number
}

/** Around both eyes, within the frame; null when they were not found. */
export function eyesRegion({ widthPx, heightPx, face }: Measurements): Region | null {
  if (!widthPx || !heightPx || !face?.leftEye || !face.rightEye || !face.eyeDistancePx) return null
  const width = Math.min(widthPx, EYES_WIDTH_PX, Math.ceil(face.eyeDistancePx * 2.2))
  const height = Math.min(heightPx, EYES_HEIGHT_PX, Math.ceil(face.eyeDistancePx))
  const x = ((face.leftEye.x + face.rightEye.x) / 2) * widthPx
  const y = ((face.leftEye.y + face.rightEye.y) / 2) * heightPx
  const start = (middle: number, length: number, edge: number) =>
    Math.min(Math.max(0, Math.round(middle - length / 2)), edge - length)
  return { left: start(x, width, widthPx), top: start(y, height, heightPx), width, height }
}

/** Saved without metadata, at a lower quality where the picture is busy; decoded once. */
async function encoded(picture: ReturnType<typeof opened>, mostBytes: number): Promise<SmallPicture> {
  const { data, info } = await picture.raw({ depth: 'uchar' }).toBuffer({ resolveWithObject: true })
  const { width, height, channels } = info
  for (let quality = QUALITY; ; quality -= 16) {
    const jpeg = await decoder(data, { raw: { width, height, channels } })
      .jpeg({ quality, mozjpeg: true })
      .toBuffer()
    if (jpeg.length <= mostBytes || quality <= 16) return { widthPx: width, heightPx: height, jpeg }
  }
}
