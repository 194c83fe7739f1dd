/** One part of a container: a JPEG segment, a PNG or RIFF chunk, a box. */
export interface Part {
  readonly from: number
  /** The byte behind it. */
  readonly to: number
  /** Where its length stands, in how many bytes, and in which order. */
  readonly length: { readonly at: number; readonly bytes: 2 | 4; readonly littleEndian: boolean }
}

/** The parts of a well-formed JPEG (up to its first scan), PNG, WebP or AVIF; none of any other content. */
export function partsOf(content: Buffer): Part[] {
  const head = content.toString('latin1', 0, 12)
  if (head.startsWith('\xff\xd8')) return segments(content)
  if (head.startsWith('\x89PNG')) return chunks(content)
  if (head.startsWith('RIFF')) return riffChunks(content)
  return head.startsWith('ftyp', 4) ? boxes(content) : []
}

function segments(jpeg: Buffer): Part[] {
  const parts: Part[] = []
  let at = 2
  while (at + 4 <= jpeg.length && jpeg[at] === 0xff && jpeg[at + 1] !== 0xda) {
    const to = at + 2 + jpeg.readUInt16BE(at + 2)
    parts.push({ from: at, to, length: { at: at + 2, bytes: 2, littleEndian: false } })
    at = to
  }
  return parts
}

function chunks(png: Buffer): Part[] {
  const parts: Part[] = []
  for (let at = 8; at + 12 <= png.length; ) {
    const to = at + 12 + png.readUInt32BE(at)
    parts.push({ from: at, to, length: { at, bytes: 4, littleEndian: false } })
    at = to
  }
  return parts
}

function riffChunks(webp: Buffer): Part[] {
  const parts: Part[] = []
  for (let at = 12; at + 8 <= webp.length; ) {
    const size = webp.readUInt32LE(at + 4)
    const to = at + 8 + size + (size % 2)
    parts.push({ from: at, to, length: { at: at + 4, bytes: 4, littleEndian: true } })
    at = to
  }
  return parts
}

const HOLDERS = ['meta', 'iprp', 'ipco', 'iinf', 'moov', 'trak']

/** The boxes of a file and those within the ones that hold boxes. */
function boxes(file: Buffer, start = 0, end = file.length): Part[] {
  const parts: Part[] = []
  for (let at = start; at + 8 <= end; ) {
    const to = at + Math.max(8, file.readUInt32BE(at))
    parts.push({ from: at, to, length: { at, bytes: 4, littleEndian: false } })
    const type = file.toString('latin1', at + 4, at + 8)
    const inner = type === 'meta' ? at + 12 : type === 'iinf' ? at + 14 : at + 8
    if (HOLDERS.includes(type) && to <= end) parts.push(...boxes(file, inner, to))
    at = to
  }
  return parts
}
