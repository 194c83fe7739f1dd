/** Length of what stands before the TIFF structure in a JPEG's segment: "Exif", a NUL and a padding byte. @source CIPA DC-008 (Exif), 4.7.2. */
const LENGTH = 6

export function hasExifCode(block: Buffer): boolean {
  return block.toString('latin1', 0, 4) === 'Exif'
}

/** The TIFF structure; some programs put the code before it in other containers too. */
export function withoutExifCode(block: Buffer): Buffer {
  return hasExifCode(block) ? block.subarray(LENGTH) : block
}
