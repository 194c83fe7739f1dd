import type { Unreadable } from '../../schema/metadata-facts.ts'

/** Largest packet that is read, bytes. @choice no source: a picture's whole history of edits takes some hundred kilobytes. */
export const MAX_PACKET = 1024 * 1024

/** Characters of the digest that the portions share. @source ISO 16684-3 (XMP Specification Part 3, 1.1.3.1). */
const DIGEST = 32

/** Bytes before a portion: the digest, the full length, and where it goes. @source ISO 16684-3 (XMP Specification Part 3, 1.1.3.1). */
const HEAD = DIGEST + 8

const WHERE = 'XMP (extended)'

interface Extended {
  readonly packets: readonly { readonly where: string; readonly packet: Buffer }[]
  readonly unreadable: readonly Unreadable[]
}

/** Puts the portions of extended XMP, which JPEG holds in segments of 64 kilobytes, together. */
export function assembleXmp(portions: readonly Buffer[]): Extended {
  const byDigest = new Map<string, Buffer[]>()
  for (const portion of portions) {
    const digest = portion.toString('latin1', 0, DIGEST)
    const group = byDigest.get(digest) ?? []
    group.push(portion)
    byDigest.set(digest, group)
  }
  const packets: { where: string; packet: Buffer }[] = []
  const unreadable: Unreadable[] = []
  for (const group of byDigest.values()) {
    const assembled = assemble(group)
    if (typeof assembled === 'string') unreadable.push({ where: WHERE, why: assembled })
    else packets.push({ where: WHERE, packet: assembled })
  }
  return { packets, unreadable }
}

/** The packet that portions make up, or why there is none. @source ISO 16684-3 (XMP Specification Part 3, 1.1.3.1). */
function assemble(group: readonly Buffer[]): Buffer | Unreadable['why'] {
  const [first] = group
  if (!first || group.some((portion) => portion.length < HEAD)) return 'damaged'
  const length = first.readUInt32BE(DIGEST)
  if (length > MAX_PACKET) return 'too-large'
  const given = group.reduce((sum, portion) => sum + portion.length - HEAD, 0)
  if (given !== length) return 'damaged'
  const packet = Buffer.alloc(length)
  for (const portion of group) {
    const at = portion.readUInt32BE(DIGEST + 4)
    const data = portion.subarray(HEAD)
    if (at + data.length > length) return 'damaged'
    data.copy(packet, at)
  }
  return packet
}
