import type { Kernels, Memory } from './memory.ts'
import { withKernels } from './with-kernels.ts'

/** Three planes of a picture. */
export interface Planes {
  readonly L: Float32Array
  readonly a: Float32Array
  readonly b: Float32Array
}

/** From codes to L*a*b*. */
export interface ToLab {
  /** Linear light of each code, 256 values. */
  readonly linear: Float32Array
  /** From linear red, green and blue to X, Y and Z over those of white, nine values. */
  readonly rows: Float32Array
}

/**
 * L*, a* and b* of the first `pixels` pixels of 8-bit `data` (R, G, B interleaved), in single precision.
 * @source CIE 15:2004, ISO 11664-4.
 */
export function lab(data: Uint8Array, pixels: number, toLab: ToLab): Planes {
  return withKernels((kernels, memory) => {
    const { L, a, b } = planesOf(kernels, memory, data, pixels, toLab)
    return { L: memory.floats(L, pixels), a: memory.floats(a, pixels), b: memory.floats(b, pixels) }
  })
}

/**
 * Of the same pixels C*ab, added up in double precision.
 * @source CIE 15:2004, ISO 11664-4.
 */
export function chroma(data: Uint8Array, pixels: number, toLab: ToLab): Float32Array {
  return withKernels((kernels, memory) => {
    const { L, a, b } = planesOf(kernels, memory, data, pixels, toLab)
    kernels.chroma(a, b, pixels, L)
    return memory.floats(L, pixels)
  })
}

/** Where the planes lie. */
function planesOf(
  kernels: Kernels,
  memory: Memory,
  data: Uint8Array,
  pixels: number,
  { linear, rows }: ToLab,
) {
  const rgb = memory.put(data.subarray(0, 3 * pixels))
  const plane = Float32Array.BYTES_PER_ELEMENT * pixels
  const [L, a, b] = [memory.room(plane), memory.room(plane), memory.room(plane)]
  kernels.lab(rgb, pixels, L, a, b, memory.put(linear), memory.put(rows))
  return { L, a, b }
}
