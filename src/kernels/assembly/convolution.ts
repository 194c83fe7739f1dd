// Separable convolution of a plane of 32-bit floats, sixteen pixels at a time. The last step of a row writes beyond its end, where
// the next row is written afterwards, or slack lies.

/**
 * As the definition in tests/kernels/convolution.test.ts: along the rows, then down the columns, by the same weights.
 * @param weights as many floats as `count`, an odd number
 * @param line room for width + count floats
 * @param places room for `count` addresses
 * @param across room for a plane
 */
export function convolve(
  source: usize,
  out: usize,
  width: i32,
  height: i32,
  weights: usize,
  count: i32,
  line: usize,
  places: usize,
  across: usize,
): void {
  const row = <usize>width << 2
  const reach = count >> 1
  for (let k = 0; k < count; k++) store<usize>(places + (<usize>k << 2), line + (<usize>k << 2))
  for (let y = 0; y < height; y++) {
    extend(source + row * y, row, reach, line)
    weigh(places, row, weights, count, across + row * y)
  }
  for (let y = 0; y < height; y++) {
    for (let k = 0; k < count; k++)
      store<usize>(places + (<usize>k << 2), across + row * min(height - 1, max(0, y + k - reach)))
    weigh(places, row, weights, count, out + row * y)
  }
}

/** Copies a row with its ends repeated. @param bytes of the row */
function extend(row: usize, bytes: usize, reach: i32, line: usize): void {
  const first = load<f32>(row)
  const last = load<f32>(row + bytes - 4)
  const start = line + (<usize>reach << 2)
  memory.copy(start, row, bytes)
  for (let k: usize = 0; k < <usize>reach << 2; k += 4) {
    store<f32>(line + k, first)
    store<f32>(start + bytes + k, last)
  }
}

/** Weighted sums of the values at some places, and at those beside them along a row. @param bytes of the row */
export function weigh(places: usize, bytes: usize, weights: usize, count: i32, out: usize): void {
  for (let x: usize = 0; x < bytes; x += 64) {
    let a = f32x4.splat(0)
    let b = f32x4.splat(0)
    let c = f32x4.splat(0)
    let d = f32x4.splat(0)
    for (let k: usize = 0; k < <usize>count << 2; k += 4) {
      const from = load<usize>(places + k) + x
      const weight = v128.load32_splat(weights + k)
      a = f32x4.add(a, f32x4.mul(weight, v128.load(from)))
      b = f32x4.add(b, f32x4.mul(weight, v128.load(from, 16)))
      c = f32x4.add(c, f32x4.mul(weight, v128.load(from, 32)))
      d = f32x4.add(d, f32x4.mul(weight, v128.load(from, 48)))
    }
    v128.store(out + x, a)
    v128.store(out + x, b, 16)
    v128.store(out + x, c, 32)
    v128.store(out + x, d, 48)
  }
}

/** The values at some indexes. */
export function pick(values: usize, indexes: usize, count: i32, out: usize): void {
  for (let end = indexes + (<usize>count << 2); indexes < end; indexes += 4, out += 4)
    store<f32>(out, load<f32>(values + (<usize>load<i32>(indexes) << 2)))
}

/** How much two values differ, as a share of a third, or of 1 where that is less; in double precision. */
export function contrasts(a: usize, b: usize, whole: usize, count: i32, out: usize): void {
  for (let i: usize = 0; i < <usize>count << 2; i += 4) {
    const size = Math.abs(<f64>load<f32>(a + i) - <f64>load<f32>(b + i))
    store<f32>(out + i, <f32>(size / max(1, <f64>load<f32>(whole + i))))
  }
}
