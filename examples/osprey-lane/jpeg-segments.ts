/** A JPEG with an ICC profile (of less than 64 KiB) put in, without touching the picture. */
export function withProfile(jpeg: Buffer, profile: Buffer): Buffer {
  return withSegment(jpeg, 0xe2, Buffer.concat([Buffer.from('ICC_PROFILE\0\x01\x01', 'latin1'), profile]))
}

/**
 * A JPEG with a thumbnail (a JPEG of less than 64 KiB) as picture editors leave it: image resource 1036 (Adobe Photoshop
 * File Formats Specification, "Thumbnail Resource Format").
 */
export function withThumbnail(
  jpeg: Buffer,
  thumbnail: { readonly jpeg: Buffer; readonly width: number; readonly height: number },
): Buffer {
  const rowBytes = Math.ceil((thumbnail.width * 24) / 32) * 4
  const header = Buffer.alloc(28)
  const sizes = [1, thumbnail.width, thumbnail.height, rowBytes, rowBytes * thumbnail.height]
  for (const [i, value] of [...sizes, thumbnail.jpeg.length].entries()) header.writeUInt32BE(value, 4 * i)
  header.writeUInt16BE(24, 24)
  header.writeUInt16BE(1, 26)
  const resource = Buffer.from('8BIM\x04\x0c\0\0\0\0\0\0', 'latin1')
  const length = header.length + thumbnail.jpeg.length
  resource.writeUInt32BE(length, 8)
  const padding = Buffer.alloc(length % 2)
  const name = Buffer.from('Photoshop 3.0\0', 'latin1')
  return withSegment(jpeg, 0xed, Buffer.concat([name, resource, header, thumbnail.jpeg, padding]))
}

function withSegment(jpeg: Buffer, marker: number, content: Buffer): Buffer {
  const head = Buffer.of(0xff, marker, 0, 0)
  head.writeUInt16BE(content.length + 2, 2)
  const at = afterApplicationSegments(jpeg)
  return Buffer.concat([jpeg.subarray(0, at), head, content, jpeg.subarray(at)])
}

/** Past JFIF and Exif, which readers expect first. */
function afterApplicationSegments(jpeg: Buffer): number {
  let at = 2
  while (jpeg[at] === 0xff && ((jpeg[at + 1] ?? 0) & 0xf0) === 0xe0) at += 2 + jpeg.readUInt16BE(at + 2)
  return at
}
