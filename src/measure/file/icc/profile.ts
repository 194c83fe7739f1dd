import type { Transfer } from '../../../color/transfer.ts'
import type { Triple } from '../../../numbers/matrix3.ts'
import { fixed, readCurve } from './curve.ts'
import { readName } from './name.ts'

/** Colorants and curves of a matrix profile, for red, green and blue. */
export interface MatrixModel {
  /** XYZ relative to D50 of each primary at full. */
  readonly colorants: readonly [Triple, Triple, Triple]
  readonly curves: readonly [Transfer, Transfer, Transfer]
}

export interface IccProfile {
  /** The name that it carries. */
  readonly name: string | null
  /** Null when the profile is not defined by three colorants and curves alone. */
  readonly model: MatrixModel | null
}

/** Where a profile has what, bytes from its start. @source ICC.1:2022, 7.2 header and 7.3 tag table. */
const AT = {
  size: 0,
  version: 8,
  deviceClass: 12,
  dataSpace: 16,
  connectionSpace: 20,
  signature: 36,
  tagCount: 128,
  tagTable: 132,
} as const

/** Bytes of an entry of the tag table. @source ICC.1:2022, 7.3. */
const TAG_ENTRY = 12

/** Most tags read. @choice profiles have some dozens, no source. */
const MAX_TAGS = 1000

// Where one of these is present, color management goes by it and not by the matrix (ICC.1:2022, 8.10; cicp: 9.2.17).
const OVERRIDING = ['A2B0', 'A2B1', 'A2B2', 'D2B0', 'D2B1', 'D2B2', 'D2B3', 'cicp']

/** Classes of profiles that may be embedded. @source ICC.1:2022, 7.2.5 and Annex B.1: input, display, output, color space. */
const EMBEDDABLE = ['scnr', 'mntr', 'prtr', 'spac']

/** Versions that are read: what is later means what nobody here knows. @source ICC.1:2022, 7.2.4: the major version is the first byte. */
const VERSIONS: readonly number[] = [2, 4]

/** Reads an ICC profile (versions 2 and 4); null when it is malformed. Never throws. */
export function readProfile(icc: Buffer): IccProfile | null {
  try {
    if (icc.toString('latin1', AT.signature, AT.signature + 4) !== 'acsp') return null
    // By a size beyond its end, or of nothing, one program reads it and the next one does not. Padding behind it is fine.
    const size = icc.readUInt32BE(AT.size)
    if (size < AT.tagTable || size > icc.length) return null
    if (!VERSIONS.includes(icc.readUInt8(AT.version))) return null
    if (!EMBEDDABLE.includes(icc.toString('latin1', AT.deviceClass, AT.deviceClass + 4))) return null
    const tags = readTags(icc.subarray(0, size))
    const description = tags.get('desc')
    return { name: description ? readName(description) : null, model: readModel(icc, tags) }
  } catch (error) {
    // Node's Buffer checks every read against the buffer's end.
    if (error instanceof RangeError) return null
    throw error
  }
}

function readTags(icc: Buffer): ReadonlyMap<string, Buffer> {
  const tags = new Map<string, Buffer>()
  const count = icc.readUInt32BE(AT.tagCount)
  if (count > MAX_TAGS) throw new RangeError(`more than ${MAX_TAGS} tags`)
  for (let n = 0; n < count; n++) {
    const at = AT.tagTable + TAG_ENTRY * n
    const offset = icc.readUInt32BE(at + 4)
    const size = icc.readUInt32BE(at + 8)
    if (offset + size > icc.length) throw new RangeError('tag runs past the end of the profile')
    const signature = icc.toString('latin1', at, at + 4)
    // Readers differ in which of two they take.
    if (tags.has(signature)) throw new RangeError('a tag stands twice')
    tags.set(signature, icc.subarray(offset, offset + size))
  }
  return tags
}

function readModel(icc: Buffer, tags: ReadonlyMap<string, Buffer>): MatrixModel | null {
  const isRgb = icc.toString('latin1', AT.dataSpace, AT.dataSpace + 4) === 'RGB '
  const isXyz = icc.toString('latin1', AT.connectionSpace, AT.connectionSpace + 4) === 'XYZ '
  if (!isRgb || !isXyz || OVERRIDING.some((tag) => tags.has(tag))) return null
  const [red, green, blue] = ['rXYZ', 'gXYZ', 'bXYZ'].map((tag) => readColorant(tags.get(tag)))
  const [redCurve, greenCurve, blueCurve] = ['rTRC', 'gTRC', 'bTRC'].map((tag) => readCurveOf(tags.get(tag)))
  if (!red || !green || !blue || !redCurve || !greenCurve || !blueCurve) return null
  return { colorants: [red, green, blue], curves: [redCurve, greenCurve, blueCurve] }
}

/** A tag of type XYZType. @source ICC.1:2022, 10.31: three s15Fixed16 numbers. */
function readColorant(tag: Buffer | undefined): Triple | null {
  if (tag?.toString('latin1', 0, 4) !== 'XYZ ') return null
  return [fixed(tag, 8), fixed(tag, 12), fixed(tag, 16)]
}

function readCurveOf(tag: Buffer | undefined): Transfer | null {
  return tag ? readCurve(tag) : null
}
