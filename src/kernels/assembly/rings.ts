// The power of a real picture in rings of frequencies: its rows eight at a time, two real ones as one complex one in each of
// four lanes, then its columns four at a time.

/** The sum of all values as the window weighs them. */
export function windowed(picture: usize, width: i32, height: i32, across: usize, down: usize): f64 {
  let sum: f64 = 0
  const bytes = <usize>width << 2
  for (let y = 0; y < height; y++, picture += bytes) {
    let low = f64x2.splat(0)
    let high = f64x2.splat(0)
    let at: usize = 0
    for (; at + 16 <= bytes; at += 16) {
      const values = v128.load(picture + at)
      const weights = v128.load(across + at)
      low = f64x2.add(low, f64x2.mul(f64x2.promote_low_f32x4(weights), f64x2.promote_low_f32x4(values)))
      high = f64x2.add(high, f64x2.mul(upperHalf(weights), upperHalf(values)))
    }
    const both = f64x2.add(low, high)
    let row = f64x2.extract_lane(both, 0) + f64x2.extract_lane(both, 1)
    for (; at < bytes; at += 4) row += <f64>load<f32>(across + at) * <f64>load<f32>(picture + at)
    sum += <f64>load<f32>(down + (<usize>y << 2)) * row
  }
  return sum
}

function upperHalf(values: v128): v128 {
  return f64x2.promote_low_f32x4(v128.shuffle<i64>(values, values, 1, 1))
}

/**
 * Transforms the rows of a windowed picture; what is left of each is its lower half, columns / 2 + 1 values and three of room.
 * @param picture floats
 * @param mean that is taken off them
 * @param across and down windows
 * @param order bit-reversed indexes of the columns
 * @param re and im room for columns x 4 floats
 * @param outRe and outIm room for height, rounded up to eight, times columns / 2 + 4 floats
 */
export function transformRows(
  picture: usize,
  width: i32,
  height: i32,
  across: usize,
  down: usize,
  mean: f64,
  columns: i32,
  order: usize,
  roots: usize,
  re: usize,
  im: usize,
  outRe: usize,
  outIm: usize,
): void {
  const room = (<usize>(columns >> 1) + 4) << 2
  for (let y = 0; y < height; y += 8) {
    memory.fill(re, 0, <usize>columns << 4)
    memory.fill(im, 0, <usize>columns << 4)
    for (let k = 0; k < min(8, height - y); k++) {
      const row = picture + (<usize>((y + k) * width) << 2)
      const lane = (k < 4 ? re : im) + (<usize>(k & 3) << 2)
      enter(row, width, mean, across, load<f32>(down + (<usize>(y + k) << 2)), order, lane)
    }
    transform(re, im, columns, roots)
    const to = room * y
    for (let u = 0; u <= columns >> 1; u += 4) part(re, im, columns, u, outRe + to, outIm + to, room)
  }
}

/** Puts a windowed row into its lane, in bit-reversed order. */
function enter(
  row: usize,
  width: i32,
  mean: f64,
  across: usize,
  weight: f32,
  order: usize,
  lane: usize,
): void {
  for (let at: usize = 0; at < <usize>width << 2; at += 4) {
    const value = weight * load<f32>(across + at) * <f32>(<f64>load<f32>(row + at) - mean)
    store<f32>(lane + (<usize>load<i32>(order + at) << 4), value)
  }
}

/**
 * Parts the transforms of two real rows that were transformed as one complex row, at four frequencies: the transform of a real
 * row is Hermitian (Cooley, Lewis and Welch, Journal of Sound and Vibration 12, 1970).
 */
function part(re: usize, im: usize, count: i32, u: i32, outRe: usize, outIm: usize, room: usize): void {
  const at = <usize>u << 2
  turned(re, count, u, 1, 1, outRe + at, room)
  turned(im, count, u, 1, -1, outIm + at, room)
  turned(im, count, u, 1, 1, outRe + 4 * room + at, room)
  turned(re, count, u, -1, 1, outIm + 4 * room + at, room)
}

/** Half of (`own` x value at u + `mirrored` x value at -u) for four frequencies of four rows, written row by row. */
function turned(values: usize, count: i32, u: i32, own: f32, mirrored: f32, to: usize, room: usize): void {
  const there = f32x4.splat(<f32>0.5 * own)
  const opposite = f32x4.splat(<f32>0.5 * mirrored)
  const q0 = both(values, count, u, there, opposite)
  const q1 = both(values, count, u + 1, there, opposite)
  const q2 = both(values, count, u + 2, there, opposite)
  const q3 = both(values, count, u + 3, there, opposite)
  const low01 = v128.shuffle<f32>(q0, q1, 0, 4, 1, 5)
  const high01 = v128.shuffle<f32>(q0, q1, 2, 6, 3, 7)
  const low23 = v128.shuffle<f32>(q2, q3, 0, 4, 1, 5)
  const high23 = v128.shuffle<f32>(q2, q3, 2, 6, 3, 7)
  v128.store(to, v128.shuffle<f32>(low01, low23, 0, 1, 4, 5))
  v128.store(to + room, v128.shuffle<f32>(low01, low23, 2, 3, 6, 7))
  v128.store(to + 2 * room, v128.shuffle<f32>(high01, high23, 0, 1, 4, 5))
  v128.store(to + 3 * room, v128.shuffle<f32>(high01, high23, 2, 3, 6, 7))
}

function both(values: usize, count: i32, u: i32, there: v128, opposite: v128): v128 {
  const at = values + (<usize>(u & (count - 1)) << 4)
  const across = values + (<usize>((count - u) & (count - 1)) << 4)
  return f32x4.add(f32x4.mul(there, v128.load(at)), f32x4.mul(opposite, v128.load(across)))
}

/**
 * Adds the power of the columns to their rings.
 * @param ringAt ring of the frequency u, v at u x (rows / 2 + 1) + v; from `rings` on it counts for none
 * @param powers doubles, one a ring and one for what counts for none
 */
export function powerInRings(
  planeRe: usize,
  planeIm: usize,
  height: i32,
  columns: i32,
  rows: i32,
  order: usize,
  roots: usize,
  re: usize,
  im: usize,
  ringAt: usize,
  rings: i32,
  powers: usize,
): void {
  const room = (<usize>(columns >> 1) + 4) << 2
  const half = rows >> 1
  memory.fill(powers, 0, <usize>(rings + 1) << 3)
  for (let u = 0; u <= columns >> 1; u += 4) {
    memory.fill(re, 0, <usize>rows << 4)
    memory.fill(im, 0, <usize>rows << 4)
    for (let y = 0; y < height; y++) {
      const to = <usize>load<i32>(order + (<usize>y << 2)) << 4
      const from = room * y + (<usize>u << 2)
      v128.store(re + to, v128.load(planeRe + from))
      v128.store(im + to, v128.load(planeIm + from))
    }
    transform(re, im, rows, roots)
    const lanes = min(4, (columns >> 1) + 1 - u)
    for (let v = 0; v <= half; v++) {
      let power = powerAt(re, im, v)
      // The frequency -v of a column is as good as v.
      if (v > 0 && v < half) power = f32x4.add(power, powerAt(re, im, rows - v))
      for (let lane = 0; lane < lanes; lane++) {
        const column = u + lane
        // A real picture has the same power at (-u, -v).
        const weight: f64 = column == 0 || column == columns >> 1 ? 1 : 2
        const ring = min(rings, <i32>load<u8>(ringAt + column * (half + 1) + v))
        const at = powers + (<usize>ring << 3)
        store<f64>(at, load<f64>(at) + weight * <f64>laneOf(power, lane))
      }
    }
  }
}

function powerAt(re: usize, im: usize, v: i32): v128 {
  const r = v128.load(re + (<usize>v << 4))
  const i = v128.load(im + (<usize>v << 4))
  return f32x4.add(f32x4.mul(r, r), f32x4.mul(i, i))
}

function laneOf(value: v128, lane: i32): f32 {
  if (lane == 0) return f32x4.extract_lane(value, 0)
  if (lane == 1) return f32x4.extract_lane(value, 1)
  if (lane == 2) return f32x4.extract_lane(value, 2)
  return f32x4.extract_lane(value, 3)
}

// Four Fourier transforms at a time, one in each lane.

/**
 * In place; what is transformed stands in bit-reversed order before (radix 2; Cooley & Tukey, Mathematics of Computation 19, 1965).
 * @param re and im, `count` vectors of four floats each
 * @param roots cos, then -sin of 2 pi k / count for k below count / 2, floats
 */
function transform(re: usize, im: usize, count: i32, roots: usize): void {
  const sines = roots + (<usize>(count >> 1) << 2)
  const end = <usize>count << 4
  for (let half = 1; half < count; half <<= 1) {
    const apart = <usize>half << 4
    const step = count / (2 * half)
    for (let k = 0; k < half; k++) {
      const c = v128.load32_splat(roots + (<usize>(k * step) << 2))
      const s = v128.load32_splat(sines + (<usize>(k * step) << 2))
      for (let a = <usize>k << 4; a < end; a += apart << 1) butterfly(re, im, a, a + apart, c, s)
    }
  }
}

function butterfly(re: usize, im: usize, a: usize, b: usize, c: v128, s: v128): void {
  const bRe = v128.load(re + b)
  const bIm = v128.load(im + b)
  const x = f32x4.sub(f32x4.mul(bRe, c), f32x4.mul(bIm, s))
  const y = f32x4.add(f32x4.mul(bRe, s), f32x4.mul(bIm, c))
  const aRe = v128.load(re + a)
  const aIm = v128.load(im + a)
  v128.store(re + a, f32x4.add(aRe, x))
  v128.store(im + a, f32x4.add(aIm, y))
  v128.store(re + b, f32x4.sub(aRe, x))
  v128.store(im + b, f32x4.sub(aIm, y))
}
