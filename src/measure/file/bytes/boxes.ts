/** One box of the ISO base media file format (ISO/IEC 14496-12, 4.2), on which AVIF and HEIC are built. */
interface Box {
  readonly type: string
  readonly content: Buffer
}

export interface Boxes {
  readonly boxes: readonly Box[]
  /** Type of a last box that runs past the end of the data; null when all end within it. */
  readonly cut: string | null
  /** Where the last whole box ends. */
  readonly end: number
}

/** Most boxes read. @choice a picture has a few dozen; the bound keeps a hostile file from making millions. */
export const MAX_BOXES = 10_000

const PRINTABLE = /^[ -~\xa1-\xff]{4}$/

/** The boxes of a file, or of the content of a box that holds boxes. Never throws. */
export function readBoxes(data: Buffer): Boxes {
  const boxes: Box[] = []
  let at = 0
  while (at + 8 <= data.length && boxes.length < MAX_BOXES) {
    const { size, head } = sizeAt(data, at)
    const type = data.toString('latin1', at + 4, at + 8)
    // Other bytes are no type (4.2: four printable characters): what follows the last box, such as padding.
    if (!PRINTABLE.test(type)) break
    if (size < head || at + size > data.length) return { boxes, cut: type, end: at }
    boxes.push({ type, content: data.subarray(at + head, at + size) })
    at += size
  }
  return { boxes, cut: null, end: at }
}

/**
 * Size 1 stands for a 64-bit size behind the type, size 0 for "to the end of the file".
 * @source ISO/IEC 14496-12, 4.2: 8 bytes of size and type, 16 with the longer size.
 */
function sizeAt(data: Buffer, at: number): { size: number; head: number } {
  const size = data.readUInt32BE(at)
  if (size === 0) return { size: data.length - at, head: 8 }
  if (size !== 1) return { size, head: 8 }
  return at + 16 > data.length
    ? { size: Infinity, head: 16 }
    : { size: Number(data.readBigUInt64BE(at + 8)), head: 16 }
}

/** Contents of all boxes at the end of a path of types. */
export function findBoxes(data: Buffer, [type, ...rest]: readonly string[]): readonly Buffer[] {
  const contents = readBoxes(data)
    .boxes.filter((box) => box.type === type)
    // `meta` is a full box: version and flags come before its children.
    .map((box) => (type === 'meta' ? box.content.subarray(4) : box.content))
  return rest.length === 0 ? contents : contents.flatMap((content) => findBoxes(content, rest))
}

/** Whether an AVIF file stops before or within one of its parts: the description (`meta`) or the coded data. */
export function isAvifCut(file: Buffer): boolean {
  const { boxes, cut } = readBoxes(file)
  const has = (type: string) => boxes.some((box) => box.type === type)
  // Small pictures may keep their data within the description.
  const hasData = has('mdat') || findBoxes(file, ['meta', 'idat']).length > 0
  return !has('meta') || !hasData || (cut !== null && ['meta', 'mdat', 'moov'].includes(cut))
}

/** Most that is read of the `ftyp` box, bytes. @choice no source: five dozen brands, of which a file has a handful. */
const LONGEST_BRANDS = 256

/** Major and compatible brands of the leading `ftyp` box; none when the file does not start with one. */
export function brandsOf(file: Buffer): readonly string[] {
  if (file.toString('latin1', 4, 8) !== 'ftyp') return []
  const size = Math.min(file.readUInt32BE(0), file.length, LONGEST_BRANDS)
  const brands = [file.toString('latin1', 8, 12)]
  for (let at = 16; at + 4 <= size; at += 4) brands.push(file.toString('latin1', at, at + 4))
  return brands
}
