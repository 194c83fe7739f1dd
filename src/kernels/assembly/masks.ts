// Masks of 0 and 1, a byte a pixel, sixteen at a time.

/** Takes the `radius` next pixels of each hole in a row off what is set, and leaves the frame's border as it is. */
function erodeAcross(mask: usize, out: usize, width: i32, height: i32, radius: i32): void {
  memory.fill(out, 0, width * height)
  for (let y = 0; y < height; y++) {
    const start = y * width
    const end = start + width
    for (let i = start; i < end; ) {
      if (load<u8>(mask + i) == 0) {
        i++
        continue
      }
      const first = i
      while (i < end && load<u8>(mask + i) != 0) i++
      const from = first == start ? first : first + radius
      const to = i == end ? end : i - radius
      if (from < to) memory.fill(out + from, 1, to - from)
    }
  }
}

/** As erode in tests/kernels/plain.ts. @param across room for a mask @param holes room for 32 bits a column */
export function erode(
  mask: usize,
  out: usize,
  across: usize,
  holes: usize,
  width: i32,
  height: i32,
  radius: i32,
): void {
  erodeAcross(mask, across, width, height, radius)
  const none = i32x4.splat(-radius - 1)
  for (let x = 0; x < width; x += 4) v128.store(holes + (<usize>x << 2), none)
  for (let below = 0; below < height + radius; below++) {
    if (below < height) markHoles(across + below * width, holes, width, below)
    const y = below - radius
    if (y >= 0) keepFar(holes, out + y * width, width, y - radius)
  }
}

/** Notes for each column with a hole in this row that it has one. */
function markHoles(row: usize, holes: usize, width: i32, y: i32): void {
  const here = i32x4.splat(y)
  for (let x = 0; x < width; x += 4) {
    const at = holes + (<usize>x << 2)
    const values = i32x4.extend_low_i16x8_u(i16x8.extend_low_i8x16_u(v128.load32_zero(row + x)))
    v128.store(at, v128.bitselect(here, v128.load(at), i32x4.eq(values, i32x4.splat(0))))
  }
}

/** 1 where the last hole lies above a row. */
function keepFar(holes: usize, out: usize, width: i32, row: i32): void {
  const limit = i32x4.splat(row)
  for (let x = 0; x < width; x += 4) {
    const far = i32x4.lt_s(v128.load(holes + (<usize>x << 2)), limit)
    const bytes = i8x16.narrow_i16x8_s(i16x8.narrow_i32x4_s(far, far), i16x8.splat(0))
    v128.store32_lane(out + x, v128.and(bytes, i8x16.splat(1)), 0)
  }
}

/** What either mask covers, in place of the first. */
export function union(one: usize, other: usize, count: i32): void {
  for (let i = 0; i < count; i += 16) v128.store(one + i, v128.or(v128.load(one + i), v128.load(other + i)))
}

/** What both cover, in place of the first. */
export function common(one: usize, other: usize, count: i32): void {
  for (let i = 0; i < count; i += 16) v128.store(one + i, v128.and(v128.load(one + i), v128.load(other + i)))
}

/** What the first covers and the second does not, in place of the first. */
export function without(one: usize, other: usize, count: i32): void {
  for (let i = 0; i < count; i += 16)
    v128.store(one + i, v128.andnot(v128.load(one + i), v128.load(other + i)))
}

/** How many pixels a mask covers. */
export function countOf(mask: usize, count: i32): i32 {
  let covered = 0
  let i = 0
  for (; i + 16 <= count; i += 16) covered += popcnt(i8x16.bitmask(i8x16.neg(v128.load(mask + i))))
  for (; i < count; i++) covered += load<u8>(mask + i)
  return covered
}

/**
 * Indexes of every nth pixel that a mask covers, `length` of them.
 * @param step n, which need not be whole: the kth is the pixel of rank k x step, rounded down
 */
export function everyNth(mask: usize, step: f64, length: i32, out: usize): void {
  let rank = 0
  let wanted = 0
  for (let i = 0, k = 0; k < length; i += 16) {
    let bits = i8x16.bitmask(i8x16.neg(v128.load(mask + i)))
    const covered = popcnt(bits)
    if (rank + covered <= wanted) {
      rank += covered
      continue
    }
    for (; bits != 0 && k < length; bits &= bits - 1) {
      if (rank++ != wanted) continue
      store<i32>(out + (<usize>k << 2), i + ctz(bits))
      k++
      wanted = <i32>(<f64>k * step)
    }
  }
}

/** Turns a mask over, in place. */
export function invert(mask: usize, count: i32): void {
  for (let i = 0; i < count; i += 16)
    v128.store(mask + i, i8x16.sub(i8x16.splat(1), v128.load(mask + i)))
}

/**
 * As the definition in tests/kernels/masked-means.test.ts: means of what a mask covers within a square around some pixels, as floats.
 * @param pixels indexes, rising, as whole numbers
 * @param sums and counts: room for a double and a whole number a column, set to 0
 * @param sumsBefore and countsBefore: the same and one more, of all columns before one, the first of them 0
 */
export function maskedMeans(
  pixels: usize,
  count: i32,
  values: usize,
  mask: usize,
  width: i32,
  height: i32,
  radius: i32,
  sums: usize,
  counts: usize,
  sumsBefore: usize,
  countsBefore: usize,
  out: usize,
): void {
  let entered = 0
  let left = 0
  for (let k = 0; k < count; ) {
    const y = load<i32>(pixels + (<usize>k << 2)) / width
    for (; entered < min(height, y + radius + 1); entered++)
      addMasked(values + (<usize>(entered * width) << 2), mask + entered * width, width, 1, sums, counts)
    for (; left < y - radius; left++)
      addMasked(values + (<usize>(left * width) << 2), mask + left * width, width, -1, sums, counts)
    let sum: f64 = 0
    let covered = 0
    for (let x: usize = 0; x < <usize>width; x++) {
      sum += load<f64>(sums + (x << 3))
      covered += load<i32>(counts + (x << 2))
      store<f64>(sumsBefore + (x << 3), sum, 8)
      store<i32>(countsBefore + (x << 2), covered, 4)
    }
    for (; k < count && load<i32>(pixels + (<usize>k << 2)) < (y + 1) * width; k++) {
      const x = load<i32>(pixels + (<usize>k << 2)) - y * width
      const from = <usize>max(0, x - radius)
      const to = <usize>min(width, x + radius + 1)
      const n = load<i32>(countsBefore + (to << 2)) - load<i32>(countsBefore + (from << 2))
      const inside = load<f64>(sumsBefore + (to << 3)) - load<f64>(sumsBefore + (from << 3))
      store<f32>(out + (<usize>k << 2), n > 0 ? <f32>(inside / <f64>n) : f32.NaN)
    }
  }
}

/** Adds what the mask covers of a row, times a factor of 1 or -1, to the sums and the counts of the columns. */
function addMasked(values: usize, mask: usize, width: i32, factor: i32, sums: usize, counts: usize): void {
  const factors = f64x2.splat(<f64>factor)
  for (let x = 0; x < width; x += 16, values += 64, mask += 16, sums += 128, counts += 64) {
    let bits = i8x16.bitmask(i8x16.neg(v128.load(mask)))
    if (width - x < 16) bits &= (1 << (width - x)) - 1
    if (bits == 0xffff) {
      for (let k: usize = 0; k < 16; k += 2) {
        const two = f64x2.promote_low_f32x4(v128.load64_zero(values + (k << 2)))
        v128.store(sums + (k << 3), f64x2.add(v128.load(sums + (k << 3)), f64x2.mul(factors, two)))
      }
      for (let k: usize = 0; k < 64; k += 16)
        v128.store(counts + k, i32x4.add(v128.load(counts + k), i32x4.splat(factor)))
      continue
    }
    for (; bits != 0; bits &= bits - 1) {
      const k = <usize>ctz(bits)
      const sum = sums + (k << 3)
      store<f64>(sum, load<f64>(sum) + <f64>factor * <f64>load<f32>(values + (k << 2)))
      store<i32>(counts + (k << 2), load<i32>(counts + (k << 2)) + factor)
    }
  }
}

/** 1 where a float lies between two limits, both included. */
export function between(values: usize, count: i32, least: f64, most: f64, out: usize): void {
  for (let i = 0; i < count; i++) {
    const value = <f64>load<f32>(values + (<usize>i << 2))
    store<u8>(out + i, u8(value >= least) & u8(value <= most))
  }
}
