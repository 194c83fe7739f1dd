import { isDecodable } from './container/sniff.ts'
import type { DecodedPicture } from './decoded-picture.ts'
import type { FileMeasurements, MeasurementGroup, Measurements } from './measurements.ts'
import { measureMetadata } from './metadata/metadata.ts'
import type { Metadata } from './metadata/schema.ts'
import { measurePicture } from './picture.ts'
import { measureFile, type Source } from './read-file.ts'

// Where the groups that are read off the pixels stand in the measurements.
const PLACES: Partial<Record<MeasurementGroup, keyof Measurements>> = {
  background: 'background',
  face: 'face',
  head: 'head',
  finish: 'finish',
  focus: 'finish',
  signature: 'signature',
}

/**
 * Measures one file: one read, at most one full decode, and of the picture only the groups asked for.
 * Never rejects for what is in the file: that is told by its `fault`.
 * @throws Error when the face models can't be loaded
 */
export async function measure(source: Source, groups: readonly MeasurementGroup[]): Promise<Measurements> {
  const picture = groups.filter((group) => group in PLACES)
  const decode = groups.some((group) => group !== 'file')
  const { measurements, pixels, content } = await measureFile(source, { decode })
  const unmeasured = Object.fromEntries(picture.map((group) => [PLACES[group], null]))
  return {
    ...measurements,
    ...(groups.includes('metadata') ? { metadata: await metadataOf(measurements, content, pixels) } : {}),
    ...(pixels && picture.length > 0 ? await measurePicture(pixels, picture) : unmeasured),
  }
}

/** Null for a file that can't be read as a whole picture. */
async function metadataOf(
  { fault, format, widthPx, heightPx, orientationTag }: FileMeasurements,
  content: Buffer | null,
  pixels: DecodedPicture | null,
): Promise<Metadata | null> {
  if (fault || !content || widthPx === null || heightPx === null || !isDecodable(format)) return null
  return measureMetadata({ content, format, widthPx, heightPx, orientationTag, pixels })
}

// Decoding runs in the library's own threads: a few files in flight keep two cores busy.
const IN_FLIGHT = 3

export interface Progress {
  readonly done: number
  readonly total: number
}

/**
 * Measures many files, a few at a time; the results stand in the order of the files.
 * @throws the signal's reason when it is aborted
 */
export async function measureAll(
  sources: readonly Source[],
  groups: readonly MeasurementGroup[],
  signal: AbortSignal,
  progress: (progress: Progress) => void,
): Promise<Measurements[]> {
  const results: Measurements[] = []
  let next = 0
  let done = 0
  const work = async () => {
    while (next < sources.length) {
      signal.throwIfAborted()
      const index = next++
      results[index] = await measure(sources[index] as Source, groups)
      progress({ done: ++done, total: sources.length })
    }
  }
  await Promise.all(Array.from({ length: IN_FLIGHT }, work))
  signal.throwIfAborted()
  return results
}
