import { createHash } from 'node:crypto'
import { readContainer } from './container/container.ts'
import { type Decodable, isDecodable, sniff } from './container/sniff.ts'
import { readContent } from './content.ts'
import { decodePicture } from './decode.ts'
import type { DecodedPicture } from './decoded-picture.ts'
import { decoderWords } from './decoder.ts'
import type { Fault } from './fault.ts'
import { readHeader } from './header.ts'
import { type FileMeasurements, MEASURER_VERSION } from './measurements.ts'

export interface Source {
  /** Absolute. */
  readonly path: string
  /** Relative to the delivery root, with /. */
  readonly file: string
}

export interface Limits {
  /** Largest file that is read. */
  readonly bytes: number
  /** Largest picture that is decoded: width times height. */
  readonly pixels: number
}

/** Ten times what a medium-format camera gives; a print is far below. */
export const LIMITS: Limits = { bytes: 256 * 1024 * 1024, pixels: 150_000_000 }

export interface MeasuredFile {
  readonly measurements: FileMeasurements
  /** Null when decoding was not asked for or failed; `measurements.fault` tells. */
  readonly pixels: DecodedPicture | null
}

type Facts = Omit<FileMeasurements, 'measurer' | 'file'>

/**
 * Measures a file as far as header and bytes go, from one read and at most one decode. Never rejects: a file that
 * can't be read as a whole picture has a `fault`, and null for what could not be told.
 * @param decode whether to decode to the last row, which alone tells that a picture is intact
 */
export async function measureFile(
  source: Source,
  { decode, limits = LIMITS }: { readonly decode: boolean; readonly limits?: Limits },
): Promise<MeasuredFile> {
  const { pixels, ...facts } = await measure(source.path, decode, limits)
  return { measurements: { measurer: MEASURER_VERSION, file: source.file, ...facts }, pixels }
}

const UNKNOWN: Omit<Facts, 'bytes' | 'fault'> = {
  sha256: null,
  format: null,
  widthPx: null,
  heightPx: null,
  orientationTag: null,
  ppi: null,
  bitsPerChannel: null,
  channels: null,
  hasAlpha: null,
  color: null,
  jpeg: null,
  intact: null,
}

type Measured = Facts & { readonly pixels: DecodedPicture | null }

async function measure(path: string, decode: boolean, limits: Limits): Promise<Measured> {
  const content = await readContent(path, limits.bytes)
  if ('fault' in content) return { ...UNKNOWN, ...content, pixels: null }
  const { bytes, data } = content
  const facts = { ...UNKNOWN, bytes, sha256: createHash('sha256').update(data).digest('hex') }
  const format = sniff(data)
  if (format === 'lfs-pointer') return { ...facts, fault: fault('lfs-pointer'), pixels: null }
  if (format === null) return { ...facts, fault: fault('not-a-picture'), pixels: null }
  if (!isDecodable(format)) return { ...facts, format, fault: fault('format'), pixels: null }
  return { ...facts, format, ...(await readPicture(data, format, decode, limits)) }
}

type Picture = Partial<Facts> & Pick<Measured, 'fault' | 'pixels'>

async function readPicture(
  data: Buffer,
  format: Decodable,
  decode: boolean,
  limits: Limits,
): Promise<Picture> {
  const container = readContainer(format, data)
  const broken = (detail: string): Picture => ({
    fault: fault(container.endsEarly ? 'truncated' : 'corrupt', detail),
    intact: false,
    pixels: null,
  })
  try {
    const header = await readHeader(data, container)
    if (header.widthPx * header.heightPx > limits.pixels) {
      const detail = `${header.widthPx} x ${header.heightPx} px; the limit is ${limits.pixels} pixels`
      return { ...header, fault: fault('too-large', detail), pixels: null }
    }
    if (container.endsEarly) return { ...header, ...broken('') }
    if (!decode) return { ...header, fault: null, pixels: null }
    try {
      const pixels = await decodePicture(data, limits.pixels)
      return { ...header, fault: null, intact: true, pixels }
    } catch (error) {
      return { ...header, ...broken(decoderWords(error)) }
    }
  } catch (error) {
    return broken(decoderWords(error))
  }
}

function fault(kind: Fault['kind'], detail = ''): Fault {
  return { kind, detail }
}
