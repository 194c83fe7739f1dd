import { rm, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { Ajv, type ValidateFunction } from 'ajv'
import sharp from 'sharp'
import { measure } from '../../../src/measure/measure.ts'
import { isDecodable } from '../../../src/measure/schema/formats.ts'
import { GROUPS, type MeasurementGroup, Measurements } from '../../../src/measure/schema/measurements.ts'
import type { Outcome } from '../../../src/rules/contract/outcome.ts'
import { judged, strictSpec } from './judged.ts'
import type { Mutant } from './mutant.ts'
import { deniedClaims } from './outside/claims.ts'
import { outsideDecoders } from './outside/decoders.ts'
import type { Told } from './outside/exiftool.ts'
import { byFirstPhysical } from './outside/first-physical.ts'

const FILE_GROUPS: readonly MeasurementGroup[] = ['file', 'decode', 'metadata']

/** What became of a spoiled file. */
export interface Examined {
  /** The kind of its fault; "whole" when it has none. */
  readonly fate: string
  readonly outcomes: readonly Outcome[]
  /** Some of its metadata is told as unread. */
  readonly partlyUnread: boolean
  /** What is wrong with how it was measured or judged; empty when nothing is. */
  readonly findings: readonly string[]
}

/** Measures and judges spoiled files, and looks whether all that is said of them can be true. */
export class Examiner {
  readonly #folder: string
  readonly #fits: ValidateFunction
  readonly #decoders = outsideDecoders()

  /** @param folder for the files, which stay there when they are told as whole */
  constructor(folder: string) {
    this.#folder = folder
    this.#fits = new Ajv({ allowUnionTypes: true }).compile(Measurements)
  }

  /** @param all whether all groups are measured, those of the face too, which take longest */
  async examine(number: number, { original, content }: Mutant, all: boolean): Promise<Examined> {
    const file = nameOf(number, original.format)
    const path = join(this.#folder, file)
    await writeFile(path, content)
    const measured = await measure({ path, file }, all ? GROUPS : FILE_GROUPS)
    const outcomes = judged(measured, strictSpec(original.format))
    const isWhole = measured.fault === null
    const findings = [
      ...this.#misfits(measured),
      ...silent(outcomes),
      ...unlike(measured, outcomes),
      ...(isWhole ? await this.#damage(path, measured.format, content, original.content) : []),
    ]
    if (!isWhole) await rm(path)
    const partlyUnread = (measured.metadata?.unreadable.length ?? 0) > 0
    return { fate: measured.fault?.kind ?? 'whole', outcomes, partlyUnread, findings }
  }

  #misfits(measured: Measurements): string[] {
    if (this.#fits(measured)) return []
    return (this.#fits.errors ?? [])
      .slice(0, 3)
      .map(({ instancePath, message }) => `does not fit the schema: ${instancePath} ${message}`)
  }

  /** What a decoder that is no part of the picture library says against a picture that passed and is not as it was. */
  async #damage(path: string, format: string | null, content: Buffer, original: Buffer): Promise<string[]> {
    const decode = isDecodable(format) ? this.#decoders[format] : null
    const said = decode && (await decode(path))
    if (!said || KNOWN_LIMIT.test(said) || NO_DAMAGE.test(said) || (await samePixels(content, original)))
      return []
    return [`intact passes, but ${said}`]
  }
}

/**
 * What the picture library does not look for: coded data that goes on behind the last row, and codes that are in no table
 * where all of the file lies in memory, and the checksum of a PNG's unpacked data where those of its chunks fit. README,
 * "What it can't judge".
 */
const KNOWN_LIMIT = /extraneous bytes before marker 0xd9|bad Huffman code|inflate error = -3/
/** What these decoders mind beside the picture's data: how it is wrapped, or what else is in the file. */
const NO_DAMAGE = /\.png {2}(?!zlib|.*(?:CRC|IDAT))|WARN: |\[Strict\]/

async function samePixels(one: Buffer, other: Buffer): Promise<boolean> {
  const decoded = [one, other].map((content) => sharp(content).raw().toBuffer())
  const [a, b] = await Promise.all(decoded.map((pixels) => pixels.catch(() => null)))
  return !!a && !!b && a.equals(b)
}

/** By its number, so that a reader that lists a folder can tell which is which. */
export function nameOf(number: number, format: string): string {
  return `${number}.${format === 'jpeg' ? 'jpg' : format}`
}

/** What a reader of metadata says of a file against what passed. */
export function denied(
  { outcomes, partlyUnread }: Examined,
  told: Told | undefined,
  content: Buffer,
): string[] {
  if (!told) return ['ExifTool tells nothing of it']
  return deniedClaims(outcomes, byFirstPhysical(told, content), partlyUnread)
}

/** Every outcome has its sentence, and every failure its fix. */
function silent(outcomes: readonly Outcome[]): string[] {
  return outcomes
    .filter(({ verdict, reason, fix = '' }) => !/[.]$/.test(reason) || (verdict === 'fail' && fix === ''))
    .map(({ rule, verdict, reason }) => `no whole sentence for ${rule} ${verdict}: ${reason}`)
}

function unlike({ fault, intact }: Measurements, outcomes: readonly Outcome[]): string[] {
  const fails = outcomes.some(({ verdict }) => verdict === 'fail')
  const passed = outcomes.some(({ rule, verdict }) => rule === 'intact' && verdict === 'pass')
  return [
    ...(fault?.kind === 'not-measured' ? [`an error within: ${fault.detail}`] : []),
    ...(fault !== null && !fails ? ['a fault without a failed rule'] : []),
    ...(passed !== (intact === true)
      ? ['intact passes what does not decode whole, or the other way round']
      : []),
  ]
}
