/** A marker segment with its length: FF, marker, two bytes of length, payload. */
export function segment(marker: number, payload: Buffer): Buffer {
  const head = Buffer.from([0xff, marker, 0, 0])
  head.writeUInt16BE(payload.length + 2, 2)
  return Buffer.concat([head, payload])
}

export const SOI = Buffer.from([0xff, 0xd8])
export const EOI = Buffer.from([0xff, 0xd9])

/** Frame header; components as [id, h, v, table]. */
export function frame(
  marker: number,
  components: readonly (readonly [id: number, h: number, v: number, table: number])[],
): Buffer {
  const fields = components.flatMap(([id, h, v, table]) => [id, (h << 4) | v, table])
  return segment(marker, Buffer.from([8, 0, 48, 0, 32, components.length, ...fields]))
}

/** A quantization table in zig-zag order, as 8-bit or 16-bit values. */
export function quantization(id: number, table: readonly number[], bits: 8 | 16 = 8): Buffer {
  const values = Buffer.alloc(bits === 16 ? 128 : 64)
  for (const [k, value] of table.entries()) {
    if (bits === 16) values.writeUInt16BE(value, 2 * k)
    else values.writeUInt8(value, k)
  }
  return segment(0xdb, Buffer.concat([Buffer.from([(bits === 16 ? 0x10 : 0) | id]), values]))
}

/** APP2 chunks of an ICC profile, each with its number and the count. */
export function iccChunks(icc: Buffer, chunkSize = 65519): Buffer[] {
  const count = Math.ceil(icc.length / chunkSize)
  return Array.from({ length: count }, (_, n) =>
    segment(
      0xe2,
      Buffer.concat([
        Buffer.from('ICC_PROFILE\0', 'latin1'),
        Buffer.from([n + 1, count]),
        icc.subarray(n * chunkSize, (n + 1) * chunkSize),
      ]),
    ),
  )
}

/** The JPEG with more segments behind its SOI. */
export function withSegments(jpeg: Buffer, segments: readonly Buffer[]): Buffer {
  return Buffer.concat([jpeg.subarray(0, 2), ...segments, jpeg.subarray(2)])
}
