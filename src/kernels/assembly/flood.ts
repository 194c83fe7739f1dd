// Floods over masks, run by run along the rows.

/** Fields that a flood may enter; those near what was flooded alone; the others are 0. */
const FREE: u8 = 1
const SMEARED: u8 = 2

/** Index into the stack, 32-bit addresses of pixels. */
let top: usize = 0

/** Of sixteen pixels a bit each, set where it is free. */
function freeBits(at: usize): i32 {
  return i8x16.bitmask(i8x16.eq(v128.load(at), i8x16.splat(FREE)))
}

/** The first pixel of each free run between the two. */
function pushRuns(stack: usize, ways: usize, from: i32, to: i32, count: i32): void {
  if (from < 0 || to > count) return
  let before = 0
  for (let i = from; i < to; i += 16) {
    let bits = freeBits(ways + i)
    if (to - i < 16) bits &= (1 << (to - i)) - 1
    for (let first = bits & ~((bits << 1) | before); first != 0; first &= first - 1) {
      store<i32>(stack + top, i + ctz(first))
      top += 4
    }
    before = bits >> 15
  }
}

/** The first pixel of the free run that ends before a pixel of a row. */
function runStart(ways: usize, row: i32, end: i32): i32 {
  let from = end
  while (from > row) {
    const others = ~freeBits(ways + from - 16) & 0xffff
    if (others != 0) return max(row, from - clz(others << 16))
    from -= 16
  }
  return row
}

/** The pixel after the last one of the free run that begins at a pixel, in a row that ends so. */
function runEnd(ways: usize, first: i32, end: i32): i32 {
  let to = first
  while (to < end) {
    const others = ~freeBits(ways + to) & 0xffff
    if (others != 0) return min(end, to + ctz(others))
    to += 16
  }
  return end
}

/**
 * As floodFill in tests/kernels/plain.ts: sets in `mask` what is free and connected to a seed, and clears it in `ways`.
 * @param stack room for two indexes a pixel
 */
export function floodFill(
  ways: usize,
  mask: usize,
  width: i32,
  count: i32,
  seeds: usize,
  seedCount: i32,
  stack: usize,
): void {
  for (let k = 0; k < seedCount; k++) {
    store<i32>(stack, load<i32>(seeds + (<usize>k << 2)))
    top = 4
    while (top > 0) {
      top -= 4
      const at = load<i32>(stack + top)
      if (load<u8>(ways + at) != FREE) continue
      const row = at - (at % width)
      const from = runStart(ways, row, at)
      const to = runEnd(ways, at, row + width)
      memory.fill(mask + from, 1, to - from)
      memory.fill(ways + from, 0, to - from)
      pushRuns(stack, ways, from - width, to - width, count)
      pushRuns(stack, ways, from + width, to + width, count)
    }
  }
}

/** Marks what lies within the threshold as free, or as smeared where an outline runs. */
export function waysWithin(
  distance: usize,
  outline: usize,
  ways: usize,
  end: i32,
  threshold: f32,
): void {
  const most = f32x4.splat(threshold)
  for (let i = 0; i < end; i += 16, distance += 64) {
    const low = i16x8.narrow_i32x4_s(
      f32x4.le(v128.load(distance), most),
      f32x4.le(v128.load(distance, 16), most),
    )
    const high = i16x8.narrow_i32x4_s(
      f32x4.le(v128.load(distance, 32), most),
      f32x4.le(v128.load(distance, 48), most),
    )
    const kind = i8x16.add(i8x16.splat(FREE), v128.load(outline + i))
    v128.store(ways + i, v128.and(i8x16.narrow_i16x8_s(low, high), kind))
  }
}

/**
 * Adds to the mask what is smeared and at most `steps` pixels away from it through what is.
 * @param queue room for an index a pixel
 */
export function growIntoSmear(mask: usize, ways: usize, width: i32, count: i32, steps: i32, queue: usize): void {
  let end = queue
  const smeared = i8x16.splat(SMEARED)
  for (let i = 0; i < count; i += 16) {
    let bits = i8x16.bitmask(i8x16.eq(v128.load(ways + i), smeared))
    for (; bits != 0; bits &= bits - 1) {
      const k = i + ctz(bits)
      if (k >= count || !touches(mask, k, width, count)) continue
      store<i32>(end, k)
      end += 4
    }
  }
  for (let at = queue; at < end; at += 4) store<u8>(ways + load<i32>(at), 0)
  let from = queue
  for (let step = 1; from < end; step++) {
    const last = end
    for (; from < last; from += 4) {
      const i = load<i32>(from)
      store<u8>(mask + i, 1)
      if (step == steps) continue
      const x = i % width
      if (x > 0) end = visit(ways, i - 1, end)
      if (x < width - 1) end = visit(ways, i + 1, end)
      if (i >= width) end = visit(ways, i - width, end)
      if (i + width < count) end = visit(ways, i + width, end)
    }
  }
}

function visit(ways: usize, i: i32, end: usize): usize {
  if (load<u8>(ways + i) != SMEARED) return end
  store<u8>(ways + i, 0)
  store<i32>(end, i)
  return end + 4
}

function touches(mask: usize, i: i32, width: i32, count: i32): bool {
  const x = i % width
  return (
    (i >= width && load<u8>(mask + i - width) == 1) ||
    (i + width < count && load<u8>(mask + i + width) == 1) ||
    (x > 0 && load<u8>(mask + i - 1) == 1) ||
    (x < width - 1 && load<u8>(mask + i + 1) == 1)
  )
}

/**
 * The connected components (4-neighbors) of the pixels that are 1, each in the order of a breadth-first search.
 * @param left the mask, which is cleared
 * @param found room for an index a pixel: one component behind the other
 * @param ends room for an index a pixel: where each ends
 * @returns how many there are
 */
export function regions(left: usize, width: i32, count: i32, found: usize, ends: usize): i32 {
  const firstEnd = ends
  let end = found
  for (let block = 0; block < count; block += 16)
    for (;;) {
      const bits = i8x16.bitmask(i8x16.neg(v128.load(left + block)))
      if (bits == 0) break
      const start = block + ctz(bits)
      if (start >= count) break
      let next = end
      end = enter(left, start, end)
      for (; next < end; next += 4) {
        const i = load<i32>(next)
        const x = i % width
        if (x > 0) end = enter(left, i - 1, end)
        if (x < width - 1) end = enter(left, i + 1, end)
        if (i >= width) end = enter(left, i - width, end)
        if (i + width < count) end = enter(left, i + width, end)
      }
      store<i32>(ends, <i32>((end - found) >> 2))
      ends += 4
    }
  return <i32>((ends - firstEnd) >> 2)
}

function enter(left: usize, i: i32, end: usize): usize {
  if (load<u8>(left + i) != 1) return end
  store<u8>(left + i, 0)
  store<i32>(end, i)
  return end + 4
}
