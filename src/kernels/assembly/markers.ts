// Where the segments of a JPEG begin, sixteen bytes at a time: one coded byte in 256 looks like the start of a marker.

const STUFFED: u8 = 0x00
const FILL: u8 = 0xff

/**
 * As the definition in src/kernels/markers.ts: the address of the next byte 0xff that is followed by neither 0x00 nor
 * 0xff, `end` without one.
 */
export function markerFrom(at: usize, end: usize): usize {
  const last = end - 1
  for (; at + 16 <= end; at += 16) {
    for (let starts = i8x16.bitmask(i8x16.eq(v128.load(at), i8x16.splat(-1))); starts != 0; starts &= starts - 1) {
      const start = at + ctz(starts)
      if (start < last && isCode(load<u8>(start, 1))) return start
    }
  }
  for (; at < last; at++) if (load<u8>(at) == FILL && isCode(load<u8>(at, 1))) return at
  return end
}

function isCode(byte: u8): bool {
  return byte != STUFFED && byte != FILL
}
