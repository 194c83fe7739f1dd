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
