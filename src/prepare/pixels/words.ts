/** The bytes of 16-bit words as words; copied where they don't lie on an even place. */
export function wordsOf(bytes: Buffer): Uint16Array {
  const even = bytes.byteOffset % 2 === 0 ? bytes : Buffer.from(bytes)
  return new Uint16Array(even.buffer, even.byteOffset, even.length / 2)
}
