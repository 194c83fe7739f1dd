import { beginsWith } from '../bytes/begins-with.ts'

/** What stands before the TIFF structure in a JPEG's segment. @source CIPA DC-008 (Exif), 4.7.2. */
const CODE = 'Exif'
/** Its length with a NUL and a padding byte. @source CIPA DC-008 (Exif), 4.7.2. */
const LENGTH = 6

/** The TIFF structure of each block that was asked for: what is read of it is remembered by it. */
const known = new WeakMap<Buffer, Buffer>()

export function hasExifCode(block: Buffer): boolean {
  return beginsWith(block, CODE)
}

/** The TIFF structure; some programs put the code before it in other containers too. */
export function withoutExifCode(block: Buffer): Buffer {
  if (!hasExifCode(block)) return block
  const tiff = known.get(block) ?? block.subarray(LENGTH)
  known.set(block, tiff)
  return tiff
}
