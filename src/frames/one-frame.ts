import { basename, dirname, extname } from 'node:path'

/** A file of a frame: its path with `/`, and when it was taken, as its metadata tell it. */
export interface FrameFile {
  readonly file: string
  readonly captureTime: string | null
}

/** Extensions of what cameras write, by format. Any other is that of a raw file. @choice those that `watch` takes */
const FORMATS: Readonly<Record<string, readonly string[]>> = {
  jpeg: ['.jpg', '.jpeg', '.jpe', '.jfif'],
  tiff: ['.tif', '.tiff'],
}

/** Letters of a capture time down to its second: cameras write the zone and the fraction into one of two files. @choice definition (ISO 8601) */
const TO_THE_SECOND = 19

/** The format that a name tells. */
export function formatOf(file: string): string {
  const extension = extname(file).toLowerCase()
  return Object.entries(FORMATS).find(([, extensions]) => extensions.includes(extension))?.[0] ?? 'raw'
}

/** What a frame is called: the name of its file without folder and extension, capital and small letters alike. */
export function frameName(file: string): string {
  return basename(file, extname(file)).normalize('NFC').toLowerCase()
}

/**
 * Whether a camera wrote one frame into two files, as raw and JPEG: by one name in two formats, in one folder, or in two where both were taken in
 * the same second.
 */
export function areOneFrame(one: FrameFile, other: FrameFile): boolean {
  if (frameName(one.file) !== frameName(other.file) || formatOf(one.file) === formatOf(other.file))
    return false
  if (dirname(one.file) === dirname(other.file)) return true
  const [first, second] = [one, other].map(({ captureTime }) => captureTime?.slice(0, TO_THE_SECOND))
  return first !== undefined && first.length === TO_THE_SECOND && first === second
}

/** Files that hold the same frame together: the one that it is judged by, a raw file only where there is no other, and the rest. */
export function byFrame<T extends FrameFile>(
  files: readonly T[],
): { readonly judged: T; readonly others: readonly T[] }[] {
  const byName = new Map<string, { judged: T; others: T[] }[]>()
  const all = files.toSorted(
    (a, b) => Number(formatOf(a.file) === 'raw') - Number(formatOf(b.file) === 'raw'),
  )
  for (const one of all) {
    const named = byName.get(frameName(one.file)) ?? []
    const frame = named.find(({ judged, others }) =>
      [judged, ...others].every(
        (other) => formatOf(other.file) !== formatOf(one.file) && areOneFrame(judged, one),
      ),
    )
    if (frame) frame.others.push(one)
    else byName.set(frameName(one.file), [...named, { judged: one, others: [] }])
  }
  const frames = new Map([...byName.values()].flat().map((frame) => [frame.judged, frame]))
  return files.flatMap((one) => frames.get(one) ?? [])
}
