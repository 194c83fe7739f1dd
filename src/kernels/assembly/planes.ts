// Planes of 32-bit floats, row by row, four pixels at a time. The last step of a row writes beyond its end, where the next
// row is written afterwards, or slack lies.

/** As meanOfSquares in tests/kernels/plain.ts. @param sums room for a row */
export function meanOfSquares(
  source: usize,
  out: usize,
  sums: usize,
  width: i32,
  height: i32,
  radius: i32,
): void {
  const row = <usize>width << 2
  const reach = <usize>radius << 2
  const across = 2 * radius + 1
  for (let y = 0; y < height; y++, out += row) {
    const first = max(0, y - radius)
    const rows = min(height - 1, y + radius) - first + 1
    for (let at: usize = 0; at < row; at += 16) {
      let from = source + row * first + at
      let sum = v128.load(from)
      for (let k = 1; k < rows; k++) {
        from += row
        sum = f32x4.add(sum, v128.load(from))
      }
      v128.store(sums + at, sum)
    }
    const share = f32x4.splat(<f32>(1.0 / <f64>(across * rows)))
    for (let x = radius; x < width - radius; x += 4) {
      const at = <usize>x << 2
      let from = sums + at - reach
      let sum = v128.load(from)
      for (let k = 1; k < across; k++) {
        from += 4
        sum = f32x4.add(sum, v128.load(from))
      }
      v128.store(out + at, f32x4.mul(sum, share))
    }
    for (let x = 0; x < min(radius, width); x++) meanAtBorder(sums, out, x, width, rows, radius)
    for (let x = max(radius, width - radius); x < width; x++) meanAtBorder(sums, out, x, width, rows, radius)
  }
}

function meanAtBorder(sums: usize, out: usize, x: i32, width: i32, rows: i32, radius: i32): void {
  const from = max(0, x - radius)
  const to = min(width - 1, x + radius)
  let sum: f32 = 0
  for (let k = from; k <= to; k++) sum += load<f32>(sums + (<usize>k << 2))
  store<f32>(out + (<usize>x << 2), sum / <f32>((to - from + 1) * rows))
}

/** As slopes in tests/kernels/plain.ts. */
export function slopes(source: usize, out: usize, width: i32, height: i32, reach: i32): void {
  const row = <usize>width << 2
  const ends = <usize>reach << 2
  const perPixel = f32x4.splat(<f32>(0.5 / <f64>reach))
  for (let y = 0; y < height; y++) {
    const top = max(0, y - reach)
    const bottom = min(height - 1, y + reach)
    const above = source + row * top
    const below = source + row * bottom
    const here = source + row * y
    const to = out + row * y
    const perRow = f32x4.splat(bottom > top ? <f32>(1.0 / <f64>(bottom - top)) : 0)
    for (let x = reach; x < width - reach; x += 4) {
      const at = <usize>x << 2
      const dx = f32x4.mul(f32x4.sub(v128.load(here + at + ends), v128.load(here + at - ends)), perPixel)
      const dy = f32x4.mul(f32x4.sub(v128.load(below + at), v128.load(above + at)), perRow)
      v128.store(to + at, f32x4.sqrt(f32x4.add(f32x4.mul(dx, dx), f32x4.mul(dy, dy))))
    }
    for (let x = 0; x < min(reach, width); x++) slopeAtBorder(above, below, here, to, x, width, bottom - top, reach)
    for (let x = max(reach, width - reach); x < width; x++)
      slopeAtBorder(above, below, here, to, x, width, bottom - top, reach)
  }
}

function slopeAtBorder(
  above: usize,
  below: usize,
  here: usize,
  to: usize,
  x: i32,
  width: i32,
  rows: i32,
  reach: i32,
): void {
  const at = <usize>x << 2
  const left = max(0, x - reach)
  const right = min(width - 1, x + reach)
  const across = load<f32>(here + (<usize>right << 2)) - load<f32>(here + (<usize>left << 2))
  const dx: f32 = right > left ? across / <f32>(right - left) : 0
  const dy: f32 = rows > 0 ? (load<f32>(below + at) - load<f32>(above + at)) / <f32>rows : 0
  store<f32>(to + at, <f32>Math.sqrt(<f64>dx * <f64>dx + <f64>dy * <f64>dy))
}

/** Writes the values of what a mask covers and another does not, in their order. @returns how many */
export function valuesIn(source: usize, mask: usize, except: usize, count: i32, out: usize): i32 {
  const first = out
  for (let i: usize = 0; i < <usize>count; i += 16) {
    let bits = i8x16.bitmask(i8x16.neg(v128.andnot(v128.load(mask + i), v128.load(except + i))))
    const left = count - <i32>i
    if (left < 16) bits &= (1 << left) - 1
    for (; bits != 0; bits &= bits - 1, out += 4)
      store<f32>(out, load<f32>(source + ((i + <usize>ctz(bits)) << 2)))
  }
  return <i32>((out - first) >> 2)
}

/** What of a mask has a value above the limit, in place of the mask; sixteen at a time. */
export function brighter(mask: usize, source: usize, count: i32, limit: f32): void {
  const least = f32x4.splat(limit)
  for (let i = 0; i < count; i += 16, source += 64, mask += 16)
    v128.store(mask, v128.and(v128.load(mask), sixteenAbove(source, least)))
}

/** 1 where a value is above the limit, else 0; sixteen at a time. */
export function above(source: usize, count: i32, limit: f32, out: usize): void {
  const least = f32x4.splat(limit)
  for (let i = 0; i < count; i += 16, source += 64, out += 16)
    v128.store(out, v128.and(sixteenAbove(source, least), i8x16.splat(1)))
}

function sixteenAbove(source: usize, least: v128): v128 {
  const low = i16x8.narrow_i32x4_s(
    f32x4.gt(v128.load(source), least),
    f32x4.gt(v128.load(source, 16), least),
  )
  const high = i16x8.narrow_i32x4_s(
    f32x4.gt(v128.load(source, 32), least),
    f32x4.gt(v128.load(source, 48), least),
  )
  return i8x16.narrow_i16x8_s(low, high)
}

/**
 * Distances of three planes from quadratic surfaces, row by row down to `reach`. As `readDistances` in tests/kernels/plain.ts.
 * @param rows of coefficients: of each row three parabolas, constant, linear and square term each, as floats
 * @param us of the columns, -1 to 1
 */
export function distances(
  out: usize,
  L: usize,
  a: usize,
  b: usize,
  us: usize,
  rows: usize,
  width: i32,
  reach: i32,
): void {
  const row = <usize>width << 2
  for (let y = 0; y < reach; y++, rows += 36) {
    for (let at: usize = 0; at < row; at += 16) {
      const u = v128.load(us + at)
      const dL = f32x4.sub(v128.load(L + at), parabola(rows, u))
      const da = f32x4.sub(v128.load(a + at), parabola(rows + 12, u))
      const db = f32x4.sub(v128.load(b + at), parabola(rows + 24, u))
      const square = f32x4.add(f32x4.add(f32x4.mul(dL, dL), f32x4.mul(da, da)), f32x4.mul(db, db))
      v128.store(out + at, f32x4.sqrt(square))
    }
    out += row
    L += row
    a += row
    b += row
  }
}

function parabola(terms: usize, u: v128): v128 {
  const linear = f32x4.add(v128.load32_splat(terms, 4), f32x4.mul(u, v128.load32_splat(terms, 8)))
  return f32x4.add(v128.load32_splat(terms), f32x4.mul(u, linear))
}
