/** A JPEG with an ICC profile (of less than 64 KiB) put in, without touching the picture. */
export function withProfile(jpeg: Buffer, profile: Buffer): Buffer {
  const content = Buffer.concat([Buffer.from('ICC_PROFILE\0\x01\x01', 'latin1'), profile])
  const marker = Buffer.alloc(4)
  marker.writeUInt16BE(0xffe2, 0)
  marker.writeUInt16BE(content.length + 2, 2)
  const at = afterApplicationSegments(jpeg)
  return Buffer.concat([jpeg.subarray(0, at), marker, content, jpeg.subarray(at)])
}

/** Past JFIF and Exif, which readers expect first. */
function afterApplicationSegments(jpeg: Buffer): number {
  let at = 2
  while (jpeg[at] === 0xff && ((jpeg[at + 1] ?? 0) & 0xf0) === 0xe0) at += 2 + jpeg.readUInt16BE(at + 2)
  return at
}
