// The outer part of a picture along one side: rows of pixels from the frame's edge inward.

/** A place between two pixels lies at least so far inside of the last, px. */
const BETWEEN: f64 = 0.001

/**
 * As the definition in tests/kernels/strips.test.ts, for one line: of each bin of positions the squares of what a place outside of the line
 * differs by from the place mirrored in it, those of the places to that side of it that differ less, and how many places there are, as floats.
 * @param gray floats, `length` a row
 * @param start and slope of the line
 * @param first position of the first bin
 */
export function mirrorSums(
  gray: usize,
  length: i32,
  depth: i32,
  start: f64,
  slope: f64,
  first: i32,
  bins: i32,
  size: i32,
  stride: i32,
  reach: i32,
  away: f64,
  soon: i32,
  later: i32,
  out: usize,
): void {
  const lastColumn = <f64>(length - 1) - BETWEEN
  const lastRow = <f64>(depth - 1) - BETWEEN
  for (let bin = 0; bin < bins; bin++, out += 12) {
    const from = first + bin * size
    const far = min(reach, <i32>Math.floor(start + slope * (<f64>from + <f64>size / 2)))
    const step = 1 + <i32>(far > soon) + <i32>(far > later)
    let sums = f32x4.splat(0)
    let count: f32 = 0
    for (let t = from; far >= 2 && t < from + size; t += stride) {
      const edge = start + slope * (<f64>t + 0.5)
      const outer = between(<f64>t, lastColumn)
      for (let a = 0.5; a < <f64>far; a += <f64>step) {
        if (edge + a < away + 0.5) continue
        const column = between(<f64>t - 2 * a * slope, lastColumn)
        const here = parts(gray, length, outer, between(edge - a - 0.5, lastRow))
        const further = parts(gray, length, column, between(edge + a + away - 0.5, lastRow))
        const nearer = parts(gray, length, column, between(edge + a - away - 0.5, lastRow))
        const mirrored = parts(gray, length, column, between(edge + a - 0.5, lastRow))
        const values = sumsOf(here, further, nearer, mirrored)
        const off = f32x4.sub(v128.shuffle<f32>(values, values, 0, 0, 0, 0), values)
        sums = f32x4.add(sums, f32x4.mul(off, off))
        count++
      }
    }
    store<f32>(out, f32x4.extract_lane(sums, 3))
    store<f32>(out, min(f32x4.extract_lane(sums, 1), f32x4.extract_lane(sums, 2)), 4)
    store<f32>(out, count, 8)
  }
}

/**
 * As the definition in tests/kernels/strips.test.ts, for one line: of each bin of positions the squares of what a place outside of the line
 * differs by from the color beside the line, the same inside of it, the lesser of both along it outside, and how many places there are, as floats.
 * @param clear how far beside the line its color is read
 * @param nearest the least distance from it that is compared
 */
export function repeatSums(
  gray: usize,
  length: i32,
  depth: i32,
  start: f64,
  slope: f64,
  first: i32,
  bins: i32,
  size: i32,
  stride: i32,
  reach: i32,
  soon: i32,
  later: i32,
  clear: f64,
  nearest: f64,
  out: usize,
): void {
  const lastColumn = <f64>(length - 1) - BETWEEN
  const lastRow = <f64>(depth - 1) - BETWEEN
  for (let bin = 0; bin < bins; bin++, out += 16) {
    const from = first + bin * size
    const far = min(reach, <i32>Math.floor(start + slope * (<f64>from + <f64>size / 2)))
    const step = 1 + <i32>(far > soon) + <i32>(far > later)
    let sums = f32x4.splat(0)
    let count: f32 = 0
    for (let t = from; far >= 2 && t < from + size; t += stride) {
      const edge = start + slope * (<f64>t + 0.5)
      const outer = parts(gray, length, between(<f64>t - clear * slope, lastColumn), between(edge - clear - 0.5, lastRow))
      const inner = parts(gray, length, between(<f64>t + clear * slope, lastColumn), between(edge + clear - 0.5, lastRow))
      const beside = sumsOf(outer, inner, outer, outer)
      for (let a = nearest; a < <f64>far; a += <f64>step) {
        const place = <f64>t + a * slope
        const row = between(edge - a - 0.5, lastRow)
        const values = sumsOf(
          parts(gray, length, between(place, lastColumn), row),
          parts(gray, length, between(<f64>t - a * slope, lastColumn), between(edge + a - 0.5, lastRow)),
          parts(gray, length, between(place - a, lastColumn), row),
          parts(gray, length, between(place + a, lastColumn), row),
        )
        const off = f32x4.sub(values, beside)
        const squares = f32x4.mul(off, off)
        sums = f32x4.add(sums, f32x4.min(squares, v128.shuffle<f32>(squares, squares, 0, 1, 3, 2)))
        count++
      }
    }
    v128.store(out, f32x4.replace_lane(sums, 3, count))
  }
}

/**
 * As the definition in tests/kernels/strips.test.ts, for one line: of each bin of positions the squares of what the colors outside of the line differ by
 * from those inside of it, the same less a fill as far as the line leaves it in a pixel, and how many values there are, as doubles.
 * @param planes reds, greens and blues of bytes, `length` a row and `depth` rows each
 * @param size positions of a bin, of which `read` are read
 * @param deepest lines that are deeper in the middle of a bin are left out there
 * @param clear how far inside of the line a place is not blurred
 * @param rows that are compared
 */
export function fillSums(
  planes: usize,
  length: i32,
  depth: i32,
  start: f64,
  slope: f64,
  red: f64,
  green: f64,
  blue: f64,
  bins: i32,
  size: i32,
  read: i32,
  deepest: f64,
  clear: f64,
  rows: i32,
  out: usize,
): void {
  const stride = <f64>size / <f64>read
  for (let bin = 0; bin < bins; bin++, out += 24) {
    const from = bin * size
    const middle = start + slope * (<f64>from + <f64>size / 2)
    let without: f64 = 0
    let within: f64 = 0
    let count = 0
    for (let k = 0; k < read && middle >= 0.5 && middle <= deepest; k++) {
      const t = from + <i32>Math.floor(<f64>k * stride)
      const edge = start + slope * (<f64>t + 0.5)
      const last = <i32>Math.ceil(edge + 0.5)
      const first = max(0, last - rows)
      const inside = max(0, <i32>Math.ceil(edge + clear)) * length + t
      for (let c = 0; c < 3; c++) {
        const plane = planes + <usize>(c * length * depth)
        const beyond = (<f64>load<u8>(plane + inside) + <f64>load<u8>(plane + inside + length)) / 2
        const fill = (c == 0 ? red : c == 1 ? green : blue) - beyond
        let at = plane + first * length + t
        for (let d = first; d < last; d++, at += length) {
          const off = <f64>load<u8>(at) - beyond
          const left = off - max(0, min(1, edge - <f64>d)) * fill
          without += off * off
          within += left * left
          count++
        }
      }
    }
    store<f64>(out, without)
    store<f64>(out, within, 8)
    store<f64>(out, <f64>count, 16)
  }
}

function between(value: f64, last: f64): f64 {
  return min(last, max(0, value))
}

/** The four pixels around a place, each times its share of bilinear interpolation. */
function parts(gray: usize, length: i32, x: f64, y: f64): v128 {
  const column = Math.floor(x)
  const row = Math.floor(y)
  const right = <f32>(x - column)
  const down = <f32>(y - row)
  const at = gray + (<usize>(<i32>row * length + <i32>column) << 2)
  const pixels = v128.load64_lane(at + (<usize>length << 2), v128.load64_zero(at), 1)
  const across = f32x4.replace_lane(f32x4.splat(1 - right), 1, right)
  const shares = f32x4.mul(
    v128.shuffle<f32>(across, across, 0, 1, 0, 1),
    v128.shuffle<f32>(f32x4.splat(1 - down), f32x4.splat(down), 0, 1, 4, 5),
  )
  return f32x4.mul(pixels, shares)
}

/** The sum over the lanes of each of four vectors. */
function sumsOf(a: v128, b: v128, c: v128, d: v128): v128 {
  const ab = f32x4.add(v128.shuffle<f32>(a, b, 0, 1, 4, 5), v128.shuffle<f32>(a, b, 2, 3, 6, 7))
  const cd = f32x4.add(v128.shuffle<f32>(c, d, 0, 1, 4, 5), v128.shuffle<f32>(c, d, 2, 3, 6, 7))
  return f32x4.add(v128.shuffle<f32>(ab, cd, 0, 2, 4, 6), v128.shuffle<f32>(ab, cd, 1, 3, 5, 7))
}

/**
 * As the definition in tests/kernels/strips.test.ts: how far each column runs inward before its color differs by more than each tolerance.
 * @param reds, greens and blues of bytes, `length` a row
 * @param depth rows, at most 255
 * @param tolerances bytes, rising
 * @param runs room for a row of bytes for each tolerance
 * @param room bytes of such a row: length, rounded up to a multiple of sixteen
 */
export function runsWithin(
  reds: usize,
  greens: usize,
  blues: usize,
  length: i32,
  depth: i32,
  red: i32,
  green: i32,
  blue: i32,
  tolerances: usize,
  count: i32,
  runs: usize,
  room: i32,
): void {
  const r = i8x16.splat(<i8>red)
  const g = i8x16.splat(<i8>green)
  const b = i8x16.splat(<i8>blue)
  for (let x = 0; x < room; x += 16) {
    let most = i8x16.splat(0)
    for (let k = 0; k < count; k++) v128.store(runs + k * room + x, i8x16.splat(0))
    const largest = i8x16.splat(load<i8>(tolerances + count - 1))
    for (let d = 0, at = x; d < depth; d++, at += length) {
      const here = i8x16.max_u(
        i8x16.max_u(apart(v128.load(reds + at), r), apart(v128.load(greens + at), g)),
        apart(v128.load(blues + at), b),
      )
      most = i8x16.max_u(most, here)
      if (!v128.any_true(i8x16.le_u(most, largest))) break
      for (let k = 0; k < count; k++) {
        const run = runs + k * room + x
        const within = i8x16.le_u(most, i8x16.splat(load<i8>(tolerances + k)))
        v128.store(run, i8x16.sub(v128.load(run), within))
      }
    }
  }
}

function apart(a: v128, b: v128): v128 {
  return v128.or(i8x16.sub_sat_u(a, b), i8x16.sub_sat_u(b, a))
}
