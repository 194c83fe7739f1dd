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
