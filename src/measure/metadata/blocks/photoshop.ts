/** One image resource block of Photoshop, by its number. Adobe Photoshop File Formats Specification, "Image Resources". */
export interface Resource {
  readonly id: number
  readonly data: Buffer
}

/** Numbers of image resources. @source Adobe Photoshop File Formats Specification, "Image resource IDs". */
export const RESOURCE = {
  iim: 0x0404,
  /** Of Photoshop 4: a JPEG whose red and blue are exchanged. */
  oldThumbnail: 0x0409,
  thumbnail: 0x040c,
  exif: 0x0422,
  xmp: 0x0424,
  iimDigest: 0x0425,
} as const

/** Least bytes of a resource: signature, number, an empty name and the size. @source Adobe Photoshop File Formats Specification, "Image resource blocks". */
const HEAD = 12

/** Most resources read. @choice files have some dozens; the bound keeps a hostile one cheap, no source. */
const MAX_RESOURCES = 10_000
// `8BIM`, and the signatures of programs that share the blocks, from memory.
const SIGNATURES = ['8BIM', 'MeSa', 'AgHg', 'PHUT', 'DCSR']

/**
 * The blocks one after the other, and whether the last ends where the data ends. Never throws.
 * @source Adobe Photoshop File Formats Specification, "Image resource blocks".
 */
export function readResources(data: Buffer): { resources: readonly Resource[]; damaged: boolean } {
  const resources: Resource[] = []
  let at = 0
  while (at + HEAD <= data.length && SIGNATURES.includes(data.toString('latin1', at, at + 4))) {
    // The name is a length and its bytes, together an even number.
    const nameLength = 1 + data.readUInt8(at + 6)
    const sizeAt = at + 6 + nameLength + (nameLength % 2)
    if (sizeAt + 4 > data.length || resources.length === MAX_RESOURCES) break
    const from = sizeAt + 4
    const to = from + data.readUInt32BE(sizeAt)
    if (to > data.length) break
    resources.push({ id: data.readUInt16BE(at + 4), data: data.subarray(from, to) })
    at = to + ((to - from) % 2)
  }
  return { resources, damaged: data.subarray(at).some((byte) => byte !== 0) }
}
