import type { FileMemory } from '../files/file-memory.ts'
import { shortageOf } from '../files/shortage.ts'
import { TooMuchAtOnce } from './file/decode-memory.ts'
import type { DecodedPicture } from './file/decoded-picture.ts'
import { faultOf } from './file/image.ts'
import { DamagedPicture } from './file/picture-parts.ts'
import { isRaw, rawContent } from './file/raw/raw-content.ts'
import { type FileContent, LIMITS, measureFile, readHashed, type Source } from './file/read-file.ts'
import { measureMetadata } from './metadata/metadata.ts'
import { isDecodable, isRefused } from './schema/formats.ts'
import { completed, isDecoded, restricted } from './schema/groups.ts'
import type { FileMeasurements, MeasurementGroup, Measurements } from './schema/measurements.ts'
import type { Metadata } from './schema/metadata.ts'
import type { MeasurementStore } from './schema/store.ts'
import { unmeasured } from './schema/unmeasured.ts'

// What needs the models.
const OF_FACE: readonly MeasurementGroup[] = ['background', 'face']

export interface MeasuringMeans {
  readonly store?: MeasurementStore | null
  /** Where the file is put while it is measured, for one file at a time; new memory by default. */
  readonly memory?: FileMemory | null
  /** Memory that decoding may take just now, in bytes; as much as the limits allow by default. */
  readonly share?: number
}

/**
 * Measures one file: one read, at most one full decode, and of the picture only the groups asked for; nothing of that
 * when the store knows it. Never rejects for what is in the file: that is told by its `fault`.
 * @throws Error when the networks can't be loaded, or the process has run out of memory or files that it may open; TooMuchAtOnce when decoding would take more memory than its share
 */
export async function measure(
  source: Source,
  asked: readonly MeasurementGroup[],
  { store = null, memory = null, share }: MeasuringMeans = {},
): Promise<Measurements> {
  const { path, file, isUnlikeOthers = false } = source
  const groups = completed(asked)
  const isHashed = store !== null || (groups.includes('checksum') && !isUnlikeOthers)
  const content = asFrame(source, await readHashed(path, LIMITS.bytes, memory, isHashed))
  const known = store && content.sha256 ? await store.find(content.sha256, groups, source) : null
  if (known) return known
  // Loaded while the file is decoded.
  const models = loadModels(groups)
  models.catch(() => undefined)
  let measured: Measurements
  try {
    measured = await measureContent(source, content, groups, share)
  } catch (error) {
    // Without them no file can be measured: that is no fault of this one.
    await models
    if (error instanceof TooMuchAtOnce || shortageOf(error) !== null) throw error
    return unmeasured(file, error instanceof Error ? error.message : String(error))
  }
  // Refused it is not measured: another spec may have it measured. What memory was missing for may succeed the next time.
  const isFinal = !isRefused(measured.format, source.formats) && measured.fault?.kind !== 'not-measured'
  if (store && content.sha256 && isFinal) await store.keep(content.sha256, groups, measured, source)
  return measured
}

/** A raw file is a frame by the JPEG that it embeds. */
function asFrame({ file, isFrame = false }: Source, content: FileContent): FileContent {
  const embedded = isFrame && 'data' in content && isRaw(file, content.data) ? rawContent(content.data) : null
  return embedded ? { bytes: embedded.data.length, ...embedded } : content
}

async function measureContent(
  { file, formats, isFrame = false }: Source,
  read: FileContent,
  groups: readonly MeasurementGroup[],
  share: number | undefined,
): Promise<Measurements> {
  const isShown = groups.some((group) => OF_FACE.includes(group))
  const { measurements, pixels, parts, content } = await measureFile(file, read, {
    decode: isDecoded(groups),
    inParts: isFrame && isShown,
    formats,
    share,
  })
  const metadata = groups.includes('metadata') ? await metadataOf(measurements, content, pixels) : null
  try {
    const picture = parts ?? pixels
    const shown =
      isShown && picture ? await (await pictureCode()).measurePicture(picture, groups, { isFrame }) : {}
    return restricted({ ...measurements, metadata, ...shown }, groups)
  } catch (error) {
    if (!(error instanceof DamagedPicture)) throw error
    return restricted({ ...measurements, ...faultOf(error.cause) }, groups)
  }
}

/** Those that the groups need, once a thread. @throws Error when they can't be loaded */
async function loadModels(groups: readonly MeasurementGroup[]): Promise<void> {
  if (!groups.some((group) => OF_FACE.includes(group))) return
  const { loadFaceModel, loadPersonModel } = await pictureCode()
  await Promise.all([loadFaceModel(), groups.includes('background') && loadPersonModel()])
}

/** Loads what a first picture is decoded and looked at with, but for the models, before there is one. */
export async function loadAhead(): Promise<void> {
  await Promise.all([pictureCode(), import('./file/decode.ts')])
}

/** Loaded with the first picture that is looked at: headers and metadata need neither models nor decoder. */
async function pictureCode() {
  const [{ loadFaceModel }, { loadPersonModel }, { measurePicture }] = await Promise.all([
    import('./face/networks/face-model.ts'),
    import('./person/person-model.ts'),
    import('./picture.ts'),
  ])
  return { loadFaceModel, loadPersonModel, measurePicture }
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
