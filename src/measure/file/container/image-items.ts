import { findBoxes, readBoxes } from '../bytes/boxes.ts'

/** Types of items that are no pictures: metadata. All others are, coded or derived from others. @source ISO/IEC 14496-12, 8.11.6; ISO/IEC 23008-12, A.2.1. */
const METADATA: readonly string[] = ['Exif', 'mime', 'uri ']

/** References from an item that is not to be shown by itself: a thumbnail, an auxiliary picture such as transparency. @source ISO/IEC 23008-12, 6.4. */
const HELPERS: readonly string[] = ['thmb', 'auxl']

/** Flag of an item that is not to be shown by itself. @source ISO/IEC 23008-12, 6.4.2. */
const HIDDEN = 1

/** Bytes of version and flags before the content of a full box. @source ISO/IEC 14496-12, 4.2. */
const FULL_BOX = 4

/**
 * How many pictures of an AVIF are to be shown beside its primary one.
 * @throws RangeError where the description ends early
 * @source ISO/IEC 14496-12, 8.11: the layout of `pitm`, `iinf`, `infe` and `iref`
 */
export function furtherPictures(avif: Buffer): number {
  const [primaryBox] = findBoxes(avif, ['meta', 'pitm'])
  const primary = primaryBox && idAt(primaryBox, FULL_BOX, primaryBox.readUInt8(0) > 0)
  const parts = partsOf(avif)
  const items = findBoxes(avif, ['meta', 'iinf']).flatMap(itemsOf)
  return items.filter(({ id, type, isHidden }) => {
    return !METADATA.includes(type) && !isHidden && id !== primary && !parts.has(id)
  }).length
}

/** Whether an AVIF has a thumbnail among its items. @source ISO/IEC 23008-12, 6.4.5. */
export function hasThumbnail(avif: Buffer): boolean {
  return findBoxes(avif, ['meta', 'iref']).some((iref) =>
    readBoxes(iref.subarray(FULL_BOX)).boxes.some(({ type }) => type === 'thmb'),
  )
}

interface Item {
  readonly id: number
  readonly type: string
  readonly isHidden: boolean
}

function itemsOf(iinf: Buffer): Item[] {
  // Version and flags, then the number of entries in 16 or 32 bits.
  const entries = readBoxes(iinf.subarray(iinf.readUInt8(0) === 0 ? 6 : 8)).boxes
  return entries.flatMap(({ type, content }) => {
    if (type !== 'infe') return []
    const version = content.readUInt8(0)
    if (version < 2) return []
    const isWide = version > 2
    // Behind the item's number stands that of its protection, 16 bits, and then its type.
    const typeAt = FULL_BOX + (isWide ? 4 : 2) + 2
    return {
      id: idAt(content, FULL_BOX, isWide),
      type: content.toString('latin1', typeAt, typeAt + 4),
      isHidden: (content.readUInt8(3) & HIDDEN) !== 0,
    }
  })
}

/** Items that are there for others: thumbnails and auxiliary pictures, and what others are derived from. */
function partsOf(avif: Buffer): Set<number> {
  const parts = new Set<number>()
  for (const iref of findBoxes(avif, ['meta', 'iref'])) {
    const isWide = iref.readUInt8(0) > 0
    const step = isWide ? 4 : 2
    for (const { type, content } of readBoxes(iref.subarray(FULL_BOX)).boxes) {
      if (HELPERS.includes(type)) parts.add(idAt(content, 0, isWide))
      if (type !== 'dimg') continue
      const count = content.readUInt16BE(step)
      for (let n = 0; n < count; n++) parts.add(idAt(content, step + 2 + n * step, isWide))
    }
  }
  return parts
}

function idAt(box: Buffer, at: number, isWide: boolean): number {
  return isWide ? box.readUInt32BE(at) : box.readUInt16BE(at)
}
