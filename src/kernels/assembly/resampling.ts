// A picture to linear light, made smaller along both axes, and to the codes of another space; row by row, red, green and blue side by side.
// The last step of a row may read and write beyond its end, where slack lies.

/**
 * Codes to linear light.
 * @param wide whether codes have two bytes
 * @param red, green, blue tables of floats, one for each code
 */
export function lighten(
  codes: usize,
  pixels: i32,
  wide: bool,
  red: usize,
  green: usize,
  blue: usize,
  out: usize,
): void {
  const end = out + 12 * <usize>pixels
  if (wide)
    for (; out < end; out += 12, codes += 6) {
      store<f32>(out, load<f32>(red + (<usize>load<u16>(codes) << 2)))
      store<f32>(out, load<f32>(green + (<usize>load<u16>(codes, 2) << 2)), 4)
      store<f32>(out, load<f32>(blue + (<usize>load<u16>(codes, 4) << 2)), 8)
    }
  else
    for (; out < end; out += 12, codes += 3) {
      store<f32>(out, load<f32>(red + (<usize>load<u8>(codes) << 2)))
      store<f32>(out, load<f32>(green + (<usize>load<u8>(codes, 1) << 2)), 4)
      store<f32>(out, load<f32>(blue + (<usize>load<u8>(codes, 2) << 2)), 8)
    }
}

/**
 * Each pixel of the result as a weighted sum of neighbors in a row, no darker than the nearest of them.
 * @param starts of each, the first neighbor, as whole numbers
 * @param weights of each, `count` floats
 * @param nears of each, the first of the nearest neighbors, as whole numbers
 * @param near how many these are; with 0 the sum is not bounded
 */
export function gather(
  row: usize,
  pixels: i32,
  starts: usize,
  weights: usize,
  count: i32,
  nears: usize,
  near: i32,
  out: usize,
): void {
  for (let x = 0; x < pixels; x++, starts += 4, nears += 4, out += 12) {
    let from = row + 12 * <usize>load<i32>(starts)
    // Two sums, so that none waits for the one before.
    let even = f32x4.splat(0)
    let odd = f32x4.splat(0)
    let k = 1
    for (; k < count; k += 2, from += 24, weights += 8) {
      even = f32x4.add(even, f32x4.mul(v128.load32_splat(weights), v128.load(from)))
      odd = f32x4.add(odd, f32x4.mul(v128.load32_splat(weights, 4), v128.load(from, 12)))
    }
    if (k == count) {
      even = f32x4.add(even, f32x4.mul(v128.load32_splat(weights), v128.load(from)))
      weights += 4
    }
    let sum = f32x4.add(even, odd)
    let at = row + 12 * <usize>load<i32>(nears)
    let least = v128.load(at)
    for (let n = 1; n < near; n++) {
      at += 12
      least = f32x4.pmin(least, v128.load(at))
    }
    if (near > 0) sum = f32x4.pmax(least, sum)
    // The fourth lane is overwritten by the next pixel.
    v128.store(out, sum)
  }
}

/** Makes no value of a row darker than those at the same place of other rows. @param bytes of the row */
export function bound(places: usize, count: i32, bytes: usize, row: usize): void {
  for (let x: usize = 0; x < bytes; x += 16) {
    let least = v128.load(load<usize>(places) + x)
    for (let k: usize = 4; k < <usize>count << 2; k += 4)
      least = f32x4.pmin(least, v128.load(load<usize>(places + k) + x))
    v128.store(row + x, f32x4.pmax(least, v128.load(row + x)))
  }
}

/**
 * Linear light to codes: by a matrix, and by a table over the root of light, by whose steps curves are almost straight, also where they
 * rise steeply from black.
 * @param matrix three columns of four floats, the last of them 0
 * @param table codes as floats, `steps` of them and the last one once more
 * @param noise eight floats that are added before rounding down, by the column
 * @param channels 3, or 1, of which the first row of the matrix tells
 * @param within how far beyond 0..1 a channel may lie and still be in gamut
 * @returns how many pixels are out of gamut
 */
export function encodeLight(
  light: usize,
  pixels: i32,
  matrix: usize,
  table: usize,
  steps: i32,
  noise: usize,
  channels: i32,
  wide: bool,
  within: f32,
  out: usize,
): i32 {
  const first = v128.load(matrix)
  const second = v128.load(matrix, 16)
  const third = v128.load(matrix, 32)
  const zero = f32x4.splat(0)
  const one = f32x4.splat(1)
  const least = f32x4.splat(-within)
  const most = f32x4.splat(1 + within)
  const last = f32x4.splat(<f32>(steps - 1))
  let outside = 0
  for (let x = 0; x < pixels; x++, light += 12) {
    const values = f32x4.add(
      f32x4.add(
        f32x4.mul(first, v128.load32_splat(light)),
        f32x4.mul(second, v128.load32_splat(light, 4)),
      ),
      f32x4.mul(third, v128.load32_splat(light, 8)),
    )
    outside += <i32>v128.any_true(v128.or(f32x4.lt(values, least), f32x4.gt(values, most)))
    const place = f32x4.mul(f32x4.sqrt(f32x4.pmin(f32x4.pmax(zero, values), one)), last)
    const step = i32x4.trunc_sat_f32x4_s(place)
    const red = table + (<usize>i32x4.extract_lane(step, 0) << 2)
    const green = table + (<usize>i32x4.extract_lane(step, 1) << 2)
    const blue = table + (<usize>i32x4.extract_lane(step, 2) << 2)
    const from = v128.load32_lane(blue, v128.load32_lane(green, v128.load32_zero(red), 1), 2)
    const to = v128.load32_lane(blue + 4, v128.load32_lane(green + 4, v128.load32_zero(red + 4), 1), 2)
    const part = f32x4.sub(place, f32x4.convert_i32x4_s(step))
    const exact = f32x4.add(from, f32x4.mul(part, f32x4.sub(to, from)))
    const code = i32x4.trunc_sat_f32x4_s(
      f32x4.add(exact, v128.load32_splat(noise + (<usize>(x & 7) << 2))),
    )
    if (wide) {
      store<u16>(out, <u16>i32x4.extract_lane(code, 0))
      if (channels == 3) {
        store<u16>(out, <u16>i32x4.extract_lane(code, 1), 2)
        store<u16>(out, <u16>i32x4.extract_lane(code, 2), 4)
      }
      out += <usize>channels << 1
    } else {
      store<u8>(out, <u8>i32x4.extract_lane(code, 0))
      if (channels == 3) {
        store<u8>(out, <u8>i32x4.extract_lane(code, 1), 1)
        store<u8>(out, <u8>i32x4.extract_lane(code, 2), 2)
      }
      out += <usize>channels
    }
  }
  return outside
}
