/** A box of the ISO base media file format: size, type, content. */
export function box(type: string, content: Buffer = Buffer.alloc(0)): Buffer {
  const head = Buffer.from(`\0\0\0\0${type}`, 'latin1')
  head.writeUInt32BE(8 + content.length, 0)
  return Buffer.concat([head, content])
}
