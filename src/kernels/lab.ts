import { withKernels } from './memory.ts'

/** Three planes of a picture. */
export interface Planes {
  readonly L: Float32Array
  readonly a: Float32Array
  readonly b: Float32Array
}

/**
 * L*, a* and b* of the first `pixels` pixels of 8-bit `data` (R, G, B interleaved), in single precision.
 * @param linear linear light of each code, 256 values
 * @param rows from linear red, green and blue to X, Y and Z over those of white, nine values
 * @source CIE 15:2004, ISO 11664-4.
 */
export function lab(data: Uint8Array, pixels: number, linear: Float32Array, rows: Float32Array): Planes {
  return withKernels((kernels, memory) => {
    const rgb = memory.put(data.subarray(0, 3 * pixels))
    const plane = Float32Array.BYTES_PER_ELEMENT * pixels
    const [L, a, b] = [memory.room(plane), memory.room(plane), memory.room(plane)]
    kernels.lab(rgb, pixels, L, a, b, memory.put(linear), memory.put(rows))
    return { L: memory.floats(L, pixels), a: memory.floats(a, pixels), b: memory.floats(b, pixels) }
  })
}
