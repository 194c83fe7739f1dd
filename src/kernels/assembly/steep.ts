// Where color changes fast, four pixels at a time.

/**
 * Indexes of the pixels where the square of the steepest of three planes' gradients is at least a limit, row by row, as in
 * tests/kernels/planes.test.ts. @returns how many
 */
export function steepPixels(
  L: usize,
  a: usize,
  b: usize,
  width: i32,
  height: i32,
  first: i32,
  end: i32,
  reach: i32,
  least: f32,
  out: usize,
): i32 {
  const row = <usize>width << 2
  const ends = <usize>reach << 2
  const limit = f32x4.splat(least)
  const perPixel = <f32>(0.5 / <f64>reach)
  const start = out
  for (let y = first; y < end; y++) {
    const top = max(0, y - reach)
    const bottom = min(height - 1, y + reach)
    const above = row * top
    const below = row * bottom
    const here = row * y
    const perRow: f32 = bottom > top ? <f32>(1.0 / <f64>(bottom - top)) : 0
    for (let x = 1; x < min(reach, width - 1); x++)
      out = keepSteep(L, a, b, above, below, here, x, width, reach, perRow, least, out)
    let x = max(1, reach)
    for (; x + 4 <= width - reach; x += 4) {
      const at = <usize>x << 2
      const steepest = f32x4.max(
        f32x4.max(
          steepness(L + here + at, L + above + at, L + below + at, ends, perPixel, perRow),
          steepness(a + here + at, a + above + at, a + below + at, ends, perPixel, perRow),
        ),
        steepness(b + here + at, b + above + at, b + below + at, ends, perPixel, perRow),
      )
      for (let bits = i32x4.bitmask(f32x4.ge(steepest, limit)); bits != 0; bits &= bits - 1, out += 4)
        store<i32>(out, y * width + x + ctz(bits))
    }
    for (; x < width - 1; x++)
      out = keepSteep(L, a, b, above, below, here, x, width, reach, perRow, least, out)
  }
  return <i32>((out - start) >> 2)
}

/** Squared gradients of four pixels of a plane. */
function steepness(
  here: usize,
  above: usize,
  below: usize,
  ends: usize,
  perPixel: f32,
  perRow: f32,
): v128 {
  const dx = f32x4.mul(f32x4.sub(v128.load(here + ends), v128.load(here - ends)), f32x4.splat(perPixel))
  const dy = f32x4.mul(f32x4.sub(v128.load(below), v128.load(above)), f32x4.splat(perRow))
  return f32x4.add(f32x4.mul(dx, dx), f32x4.mul(dy, dy))
}

/** The same of one pixel near the border. */
function keepSteep(
  L: usize,
  a: usize,
  b: usize,
  above: usize,
  below: usize,
  here: usize,
  x: i32,
  width: i32,
  reach: i32,
  perRow: f32,
  least: f32,
  out: usize,
): usize {
  const at = <usize>x << 2
  const left = <usize>max(0, x - reach) << 2
  const right = <usize>min(width - 1, x + reach) << 2
  const across: f32 = 4 / <f32>(right - left)
  let steepest: f32 = 0
  for (let k = 0; k < 3; k++) {
    const plane = k == 0 ? L : k == 1 ? a : b
    const dx = (load<f32>(plane + here + right) - load<f32>(plane + here + left)) * across
    const dy = (load<f32>(plane + below + at) - load<f32>(plane + above + at)) * perRow
    steepest = max(steepest, dx * dx + dy * dy)
  }
  if (steepest < least) return out
  store<i32>(out, <i32>((here + at) >> 2))
  return out + 4
}
