export interface PngChunk {
  readonly type: string
  readonly data: Buffer
}

const SIGNATURE_LENGTH = 8
/** Length and type before the data, CRC after it. */
const FRAME = 12

/**
 * Chunks of a PNG up to the first IDAT, and whether the file reaches the end of its IEND chunk (PNG, third
 * edition, 5.3). What comes after IEND is not read.
 */
export function readPng(png: Buffer): { readonly chunks: readonly PngChunk[]; readonly ended: boolean } {
  const chunks: PngChunk[] = []
  let at = SIGNATURE_LENGTH
  let dataSeen = false
  while (at + FRAME <= png.length) {
    const length = png.readUInt32BE(at)
    const type = png.toString('latin1', at + 4, at + 8)
    const end = at + FRAME + length
    if (end > png.length) break
    dataSeen ||= type === 'IDAT'
    if (!dataSeen) chunks.push({ type, data: png.subarray(at + 8, at + 8 + length) })
    if (type === 'IEND') return { chunks, ended: true }
    at = end
  }
  return { chunks, ended: false }
}
