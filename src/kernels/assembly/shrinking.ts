// Smaller copies of pictures of 8-bit codes, as libvips makes them: means of blocks, then weighted sums in 12 bits, rounded to codes after each
// axis. Rows are written 16 bytes at a time, beyond their end where slack lies.

/** Half of a weight of 1 in 12 bits, so that cutting off rounds. */
const HALF = 2048
const BITS = 12

/**
 * Means of `times` rows each, as codes.
 * @param share 2^24 over `times`, rounded down
 */
export function meanRows(rows: usize, bytes: usize, count: i32, times: i32, share: i32, out: usize): void {
  const add = i32x4.splat(times >> 1)
  const factor = i32x4.splat(share)
  for (let y = 0; y < count; y++, rows += bytes * times, out += bytes)
    for (let x: usize = 0; x < bytes; x += 16) {
      if (times == 2) {
        v128.store(out + x, i8x16.avgr_u(v128.load(rows + x), v128.load(rows + bytes + x)))
        continue
      }
      let low = i16x8.splat(0)
      let high = low
      for (let k = 0, from = rows + x; k < times; k++, from += bytes) {
        const codes = v128.load(from)
        low = i16x8.add(low, i16x8.extend_low_i8x16_u(codes))
        high = i16x8.add(high, i16x8.extend_high_i8x16_u(codes))
      }
      const first = mean(i32x4.extend_low_i16x8_u(low), add, factor)
      const second = mean(i32x4.extend_high_i16x8_u(low), add, factor)
      const third = mean(i32x4.extend_low_i16x8_u(high), add, factor)
      const fourth = mean(i32x4.extend_high_i16x8_u(high), add, factor)
      v128.store(
        out + x,
        i8x16.narrow_i16x8_u(i16x8.narrow_i32x4_s(first, second), i16x8.narrow_i32x4_s(third, fourth)),
      )
    }
}

function mean(sums: v128, add: v128, factor: v128): v128 {
  return i32x4.shr_u(i32x4.mul(i32x4.add(sums, add), factor), 24)
}

/** Addresses of the rows that one row of a copy is made of. @choice more than there ever are: blocks leave a factor below 4 */
const places = memory.data(4 * 32)

/**
 * Rows of a copy, `from` to `to`, one after the other.
 * @param rows of the picture, or means of blocks of them, from the `first` on, of `count` in all
 * @param starts of each row of the copy, the first of the rows that it is made of, beyond the ends the outermost ones, as whole numbers
 * @param weights of each, `taps` 16-bit whole numbers, an even number of them
 * @param row with room for a whole block at its end
 * @param pixels of a row, of which `times` each become one of `blocks`; for `share` see {@link meanRows}
 * @param line room for blocks and a margin at both ends
 * @param startsAcross, weightsAcross and tapsAcross: the same of the `length` pixels of a row of the copy and blocks in it, margin included
 */
export function shrinkRows(
  rows: usize,
  bytes: usize,
  first: i32,
  count: i32,
  from: i32,
  to: i32,
  starts: usize,
  weights: usize,
  taps: i32,
  row: usize,
  pixels: i32,
  times: i32,
  share: i32,
  blocks: i32,
  margin: i32,
  line: usize,
  startsAcross: usize,
  weightsAcross: usize,
  tapsAcross: i32,
  length: i32,
  out: usize,
): void {
  for (let y = from; y < to; y++, out += 3 * <usize>length) {
    const start = load<i32>(starts + (<usize>y << 2))
    for (let k = 0; k < taps; k++)
      store<usize>(places + (<usize>k << 2), rows + bytes * <usize>(min(count - 1, max(0, start + k)) - first))
    weighRows(weights + (<usize>(taps * y) << 1), taps, bytes, row)
    layOut(row, pixels, times, share, blocks, margin, line)
    weighPixels(line, startsAcross, weightsAcross, tapsAcross, length, out)
  }
}

/** A weighted sum of the rows at {@link places}, as codes. @param weights of each, 16-bit whole numbers, an even number of them */
function weighRows(weights: usize, taps: i32, bytes: usize, out: usize): void {
  for (let x: usize = 0; x < bytes; x += 16) {
    let first = i32x4.splat(HALF)
    let second = first
    let third = first
    let fourth = first
    for (let k: usize = 0; k < <usize>taps; k += 2) {
      const one = v128.load(<usize>load<i32>(places + (k << 2)) + x)
      const other = v128.load(<usize>load<i32>(places + (k << 2), 4) + x)
      const pair = v128.load32_splat(weights + (k << 1))
      const low = i8x16.shuffle(one, other, 0, 16, 1, 17, 2, 18, 3, 19, 4, 20, 5, 21, 6, 22, 7, 23)
      const high = i8x16.shuffle(one, other, 8, 24, 9, 25, 10, 26, 11, 27, 12, 28, 13, 29, 14, 30, 15, 31)
      first = i32x4.add(first, i32x4.dot_i16x8_s(i16x8.extend_low_i8x16_u(low), pair))
      second = i32x4.add(second, i32x4.dot_i16x8_s(i16x8.extend_high_i8x16_u(low), pair))
      third = i32x4.add(third, i32x4.dot_i16x8_s(i16x8.extend_low_i8x16_u(high), pair))
      fourth = i32x4.add(fourth, i32x4.dot_i16x8_s(i16x8.extend_high_i8x16_u(high), pair))
    }
    const lower = i16x8.narrow_i32x4_s(i32x4.shr_s(first, BITS), i32x4.shr_s(second, BITS))
    const upper = i16x8.narrow_i32x4_s(i32x4.shr_s(third, BITS), i32x4.shr_s(fourth, BITS))
    v128.store(out + x, i8x16.narrow_i16x8_u(lower, upper))
  }
}

/**
 * Lays out a row of red, green and blue for {@link weighPixels}: means of `times` pixels each, and beyond both ends the outermost ones, `margin` of them.
 * @param row with room for a whole block at its end
 * @param share as of {@link meanRows}
 */
function layOut(
  row: usize,
  pixels: i32,
  times: i32,
  share: i32,
  count: i32,
  margin: i32,
  out: usize,
): void {
  repeatPixel(row + 3 * (pixels - 1), count * times - pixels, row + 3 * pixels)
  const first = out + 3 * margin
  if (times == 1) memory.copy(first, row, 3 * count)
  else if (times == 2) meanPairs(row, count, first)
  else meanPixels(row, count, times, share, first)
  repeatPixel(first, margin, out)
  repeatPixel(first + 3 * (count - 1), margin, first + 3 * count)
}

function repeatPixel(pixel: usize, count: i32, out: usize): void {
  const codes = load<u16>(pixel)
  const last = load<u8>(pixel, 2)
  for (let k = 0; k < count; k++, out += 3) {
    store<u16>(out, codes)
    store<u8>(out, last, 2)
  }
}

function meanPixels(row: usize, count: i32, times: i32, share: i32, out: usize): void {
  for (let x = 0; x < count; x++)
    for (let channel = 0; channel < 3; channel++, out++) {
      let sum = times >> 1
      let from = row + <usize>(3 * x * times + channel)
      for (let k = 0; k < times; k++, from += 3) sum += <i32>load<u8>(from)
      store<u8>(out, <u8>(<u32>(sum * share) >> 24))
    }
}

/** The same of two pixels each, two at a time. */
function meanPairs(row: usize, count: i32, out: usize): void {
  for (let x = 0; x < count; x += 2, row += 12, out += 6) {
    const codes = v128.load(row)
    const former = i8x16.shuffle(codes, codes, 0, 1, 2, 6, 7, 8, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0)
    const latter = i8x16.shuffle(codes, codes, 3, 4, 5, 9, 10, 11, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0)
    v128.store64_lane(out, i8x16.avgr_u(former, latter), 0)
  }
}

/**
 * Weighted sums of neighbors along a row of red, green and blue, as codes.
 * @param starts of each, the first neighbor, as whole numbers
 * @param weights of each, `taps` 16-bit whole numbers, an even number of them
 */
function weighPixels(row: usize, starts: usize, weights: usize, taps: i32, count: i32, out: usize): void {
  // Two pixels: red and red, green and green, blue and blue in 16 bits each; what is no place gives 0.
  const pairs = i8x16(0, -1, 3, -1, 1, -1, 4, -1, 2, -1, 5, -1, -1, -1, -1, -1)
  for (let x = 0; x < count; x++, starts += 4, out += 3) {
    let from = row + 3 * <usize>load<i32>(starts)
    let sum = i32x4.splat(HALF)
    for (let k = 0; k < taps; k += 2, from += 6, weights += 4) {
      const pair = i8x16.swizzle(v128.load(from), pairs)
      sum = i32x4.add(sum, i32x4.dot_i16x8_s(pair, v128.load32_splat(weights)))
    }
    sum = i32x4.shr_s(sum, BITS)
    const narrow = i16x8.narrow_i32x4_s(sum, sum)
    // The fourth byte is overwritten by the next pixel.
    store<i32>(out, i32x4.extract_lane(i8x16.narrow_i16x8_u(narrow, narrow), 0))
  }
}
