export interface PngChunk {
  readonly type: string
  readonly data: Buffer
}

const SIGNATURE_LENGTH = 8
/** Length and type before the data, CRC after it. */
const FRAME = 12

export interface Png {
  /** Up to the first IDAT. */
  readonly chunks: readonly PngChunk[]
  /** After the first IDAT, other than IDAT and IEND. */
  readonly late: readonly PngChunk[]
  /** Whether the file reaches the end of its IEND chunk. */
  readonly ended: boolean
  /** Bytes after the last whole chunk. */
  readonly trailing: number
}

/** Reads the chunks of a PNG (PNG, third edition, 5.3). What comes after IEND is not read. */
export function readPng(png: Buffer): Png {
  const chunks: PngChunk[] = []
  const late: PngChunk[] = []
  let at = SIGNATURE_LENGTH
  let dataSeen = false
  while (at + FRAME <= png.length) {
    const length = png.readUInt32BE(at)
    const type = png.toString('latin1', at + 4, at + 8)
    const end = at + FRAME + length
    if (end > png.length) break
    dataSeen ||= type === 'IDAT'
    const chunk = { type, data: png.subarray(at + 8, at + 8 + length) }
    if (!dataSeen) chunks.push(chunk)
    else if (type !== 'IDAT' && type !== 'IEND') late.push(chunk)
    at = end
    if (type === 'IEND') return { chunks, late, ended: true, trailing: png.length - at }
  }
  return { chunks, late, ended: false, trailing: png.length - at }
}
