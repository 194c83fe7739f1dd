// Colors on both sides of lines, in a picture whose pixels are four floats each: L*, a*, b* and 0.

/** Bytes of a pixel, as a power of two. */
const PIXEL: usize = 4
/** Bytes of a line: a point, its direction, its normal to the inner side, its length and one more, as doubles; and of what is told of it. */
const LINE: usize = 64
const JUMP: usize = 32
/** Bytes of what is told of a side. */
const BAND: usize = 80

/**
 * How much color changes across each of some lines, in sums over every so many px of it, as in tests/kernels/edges.test.ts: how many places were read,
 * and L*, a* and b* of the outer side less those of the inner one, as four doubles.
 * @param apart px from the line to the place that is read on each side
 * @param stride px along it from one place to the next
 * @param most that one place may add or take of each
 * @param below rows from this one on don't count
 */
export function jumpsAcross(
  picture: usize,
  width: i32,
  height: i32,
  lines: usize,
  count: i32,
  apart: f64,
  stride: f64,
  most: f64,
  below: f64,
  out: usize,
): void {
  const highest = f64x2.splat(most)
  const lowest = f64x2.splat(-most)
  const corner = f64x2(<f64>(width - 1), <f64>(height - 1))
  for (let k = 0; k < count; k++, lines += LINE, out += JUMP) {
    const from = v128.load(lines)
    const direction = v128.load(lines, 16)
    const beside = f64x2.mul(f64x2.splat(apart), v128.load(lines, 32))
    const end = load<f64>(lines, 48) - stride
    let n: f64 = 0
    let first = f64x2.splat(0)
    let last = f64x2.splat(0)
    for (let t = stride; t < end; t += stride) {
      const place = f64x2.add(from, f64x2.mul(f64x2.splat(t), direction))
      if (f64x2.extract_lane(place, 1) > below) break
      const inner = nearest(picture, f64x2.add(place, beside), corner, width)
      const outer = nearest(picture, f64x2.sub(place, beside), corner, width)
      const changes = f64x2.sub(f64x2.promote_low_f32x4(outer), f64x2.promote_low_f32x4(inner))
      const others = f64x2.sub(f64x2.promote_low_f32x4(upper(outer)), f64x2.promote_low_f32x4(upper(inner)))
      n++
      first = f64x2.add(first, f64x2.pmax(f64x2.pmin(changes, highest), lowest))
      last = f64x2.add(last, f64x2.pmax(f64x2.pmin(others, highest), lowest))
    }
    store<f64>(out, n)
    v128.store(out, first, 8)
    store<f64>(out, f64x2.extract_lane(last, 0), 24)
  }
}

function upper(pixel: v128): v128 {
  return v128.shuffle<f32>(pixel, pixel, 2, 3, 2, 3)
}

/** The pixel at a place, or the nearest one of the frame. @param corner where the last pixel begins */
function nearest(picture: usize, place: v128, corner: v128, width: i32): v128 {
  const inside = f64x2.pmax(f64x2.pmin(place, corner), f64x2.splat(0))
  return pixelAt(picture, i32x4.trunc_sat_f64x2_s_zero(inside), width)
}

function pixelAt(picture: usize, place: v128, width: i32): v128 {
  return v128.load(picture + (<usize>(i32x4.extract_lane(place, 1) * width + i32x4.extract_lane(place, 0)) << PIXEL))
}

/**
 * Sums over both sides of some pieces of a line, first the inner one, as in tests/kernels/edges.test.ts. Of each, as doubles: how many pixels, their
 * distances and the squares of these; L*, a* and b*, and these times the distance; and of which distances there are pixels, as bits.
 * @param pieces where each begins along the line, as doubles; `length` positions of it are read
 * @param shift by how much farther in the line is taken to lie, px
 * @param from which distance on it is read, px, and to which
 */
export function bandSums(
  picture: usize,
  width: i32,
  height: i32,
  line: usize,
  pieces: usize,
  count: i32,
  length: i32,
  shift: f64,
  from: i32,
  to: i32,
  out: usize,
): void {
  for (let k = 0; k < count; k++, pieces += 8, out += 2 * BAND) {
    const begin = load<f64>(pieces)
    bandSum(picture, width, height, line, begin, length, shift, 1, from, to, out)
    bandSum(picture, width, height, line, begin, length, shift, -1, from, to, out + BAND)
  }
}

function bandSum(
  picture: usize,
  width: i32,
  height: i32,
  line: usize,
  begin: f64,
  length: i32,
  shift: f64,
  side: i32,
  from: i32,
  to: i32,
  out: usize,
): void {
  const start = v128.load(line)
  const direction = v128.load(line, 16)
  const normal = v128.load(line, 32)
  const size = f64x2(<f64>width, <f64>height)
  const none = f64x2.splat(0)
  let n = 0
  let d = 0
  let dd = 0
  let seen = 0
  let first = f64x2.splat(0)
  let last = f64x2.splat(0)
  let firstCross = f64x2.splat(0)
  let lastCross = f64x2.splat(0)
  for (let step = 0; step < length; step++) {
    const middle = f64x2.add(start, f64x2.mul(f64x2.splat(begin + <f64>step), direction))
    for (let away = from; away <= to; away++) {
      const distance = side * away
      const place = f64x2.add(middle, f64x2.mul(f64x2.splat(shift + <f64>distance), normal))
      if (!i64x2.all_true(v128.and(f64x2.ge(place, none), f64x2.lt(place, size)))) continue
      const pixel = pixelAt(picture, i32x4.trunc_sat_f64x2_s_zero(place), width)
      const colors = f64x2.promote_low_f32x4(pixel)
      const others = f64x2.promote_low_f32x4(upper(pixel))
      const way = f64x2.splat(<f64>distance)
      n++
      d += distance
      dd += distance * distance
      seen |= 1 << away
      first = f64x2.add(first, colors)
      last = f64x2.add(last, others)
      firstCross = f64x2.add(firstCross, f64x2.mul(colors, way))
      lastCross = f64x2.add(lastCross, f64x2.mul(others, way))
    }
  }
  store<f64>(out, <f64>n)
  store<f64>(out, <f64>d, 8)
  store<f64>(out, <f64>dd, 16)
  v128.store(out, first, 24)
  store<f64>(out, f64x2.extract_lane(last, 0), 40)
  v128.store(out, firstCross, 48)
  store<f64>(out, f64x2.extract_lane(lastCross, 0), 64)
  store<f64>(out, <f64>seen, 72)
}
