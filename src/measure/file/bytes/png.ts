import { crc32 } from 'node:zlib'

export interface PngChunk {
  readonly type: string
  readonly data: Buffer
}

/** Length of what a PNG begins with, bytes. @source PNG, third edition, 5.2. */
export const SIGNATURE_LENGTH = 8

/** Bytes of a chunk beside its data: length and type before it, CRC after it. @source PNG, third edition, 5.3. */
export const FRAME = 12

export interface Png {
  /** Up to the first IDAT. */
  readonly chunks: readonly PngChunk[]
  /** After the first IDAT, other than IDAT and IEND. */
  readonly late: readonly PngChunk[]
  /** Whether the file reaches the end of its IEND chunk. */
  readonly ended: boolean
  /** Bytes after the last whole chunk. */
  readonly trailing: number
  /** How many chunks there are beside IDAT and IEND; beyond {@link MAX_CHUNKS} they are not kept. */
  readonly count: number
  /**
   * What is damaged: a chunk beside the picture's data whose checksum does not fit (5.5), or picture data in pieces with
   * other chunks between them (5.6). Null when nothing is.
   */
  readonly damage: string | null
}

/** Most chunks kept. @choice no source: programs that write every property as a text of its own write some hundreds. */
export const MAX_CHUNKS = 5000

const TEXTS = ['tEXt', 'zTXt', 'iTXt']

/**
 * The PNG without its texts; null when it has no packed ones. The picture library unpacks each of them, to eight megabytes
 * and at every reading; what they say is read elsewhere, within limits.
 */
export function withoutTexts(png: Buffer, { chunks, late }: Png): Buffer | null {
  const packed = [...chunks, ...late].some(({ type }) => type === 'zTXt' || type === 'iTXt')
  if (!packed) return null
  const kept: Buffer[] = [png.subarray(0, SIGNATURE_LENGTH)]
  for (let at = SIGNATURE_LENGTH; at + FRAME <= png.length; ) {
    const end = at + FRAME + png.readUInt32BE(at)
    const type = png.toString('latin1', at + 4, at + 8)
    if (!TEXTS.includes(type)) kept.push(png.subarray(at, end))
    at = end
    if (type === 'IEND') break
  }
  return Buffer.concat(kept)
}

/** Reads the chunks of a PNG (PNG, third edition, 5.3). What comes after IEND is not read. */
export function readPng(png: Buffer): Png {
  const chunks: PngChunk[] = []
  const late: PngChunk[] = []
  let at = SIGNATURE_LENGTH
  let dataSeen = false
  let count = 0
  let damage: string | null = null
  let dataOver = false
  while (at + FRAME <= png.length) {
    const length = png.readUInt32BE(at)
    const type = png.toString('latin1', at + 4, at + 8)
    const end = at + FRAME + length
    if (end > png.length) break
    if (type === 'IDAT' && dataOver) damage ??= 'the picture data is in pieces'
    dataSeen ||= type === 'IDAT'
    dataOver = dataSeen && type !== 'IDAT'
    if (type !== 'IDAT' && type !== 'IEND' && ++count <= MAX_CHUNKS) {
      const data = png.subarray(at + 8, at + 8 + length)
      const list = dataSeen ? late : chunks
      list.push({ type, data })
      if (crc32(png.subarray(at + 4, at + 8 + length)) !== png.readUInt32BE(end - 4))
        damage ??= `the checksum of chunk ${type} does not fit`
    }
    at = end
    if (type === 'IEND') return { chunks, late, ended: true, trailing: png.length - at, count, damage }
  }
  return { chunks, late, ended: false, trailing: png.length - at, count, damage }
}
