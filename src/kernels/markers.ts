import { ownKernels } from './memory.ts'

/** Made for the first file. */
let own: ReturnType<typeof ownKernels> | undefined

/**
 * Memory for a file in which {@link markerFrom} searches sixteen bytes at a time. There is one of it: what it gave before is gone. Where
 * the system has none of this kind, which takes up more addresses than bytes, it is as any other.
 * @param bytes how many at least
 * @throws RangeError when there is no memory at all
 */
export function searchedMemory(bytes: number): Buffer {
  try {
    own ??= ownKernels()
    own.kernels.giveBack(0)
    const at = own.memory.room(bytes)
    return Buffer.from(own.kernels.memory.buffer, at, bytes)
  } catch {
    return Buffer.allocUnsafeSlow(bytes)
  }
}

/**
 * Where a JPEG's next marker stands, at or after a place; -1 without one. Coded data, stuffed zeros and fill bytes are none.
 * @source ITU-T T.81, B.1.1.2 and F.1.2.3: 0xff, and a byte that is neither 0x00 nor 0xff.
 */
export function markerFrom(jpeg: Buffer, from: number): number {
  if (own && jpeg.buffer === own.kernels.memory.buffer) {
    const end = jpeg.byteOffset + jpeg.length
    const at = own.kernels.markerFrom(jpeg.byteOffset + from, end)
    return at === end ? -1 : at - jpeg.byteOffset
  }
  for (let at = jpeg.indexOf(0xff, from); at !== -1; at = jpeg.indexOf(0xff, at + 1)) {
    const code = jpeg[at + 1]
    if (code !== undefined && code !== 0x00 && code !== 0xff) return at
  }
  return -1
}
