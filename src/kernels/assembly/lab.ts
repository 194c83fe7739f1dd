// 8-bit sRGB to CIELAB, four pixels at a time.

/** Where f() turns from a line to a cube root, and the line (CIE 15:2004, ISO 11664-4). */
const EPSILON: f32 = 216.0 / 24389.0
const SLOPE: f32 = 24389.0 / 27.0 / 116.0
const OFFSET: f32 = 16.0 / 116.0

/**
 * @param linear 256 floats, the linear light of each code
 * @param rows nine floats, X, Y and Z over those of white from linear red, green and blue
 */
export function lab(
  rgb: usize,
  count: i32,
  L: usize,
  a: usize,
  b: usize,
  linear: usize,
  rows: usize,
): void {
  for (let i = 0; i < count; i += 4, rgb += 12, L += 16, a += 16, b += 16) {
    const red = lightOf(rgb, linear)
    const green = lightOf(rgb + 1, linear)
    const blue = lightOf(rgb + 2, linear)
    const x = compressed(rowOf(rows, red, green, blue))
    const y = compressed(rowOf(rows + 12, red, green, blue))
    const z = compressed(rowOf(rows + 24, red, green, blue))
    v128.store(L, f32x4.sub(f32x4.mul(y, f32x4.splat(116)), f32x4.splat(16)))
    v128.store(a, f32x4.mul(f32x4.sub(x, y), f32x4.splat(500)))
    v128.store(b, f32x4.mul(f32x4.sub(y, z), f32x4.splat(200)))
  }
}

/** The distance of each a*, b* from gray: in double precision, as floats. */
export function chroma(a: usize, b: usize, count: i32, out: usize): void {
  for (let i = 0; i < count; i += 2, a += 8, b += 8, out += 8) {
    const along = f64x2.promote_low_f32x4(v128.load64_zero(a))
    const across = f64x2.promote_low_f32x4(v128.load64_zero(b))
    const squares = f64x2.add(f64x2.mul(along, along), f64x2.mul(across, across))
    v128.store64_lane(out, f32x4.demote_f64x2_zero(f64x2.sqrt(squares)), 0)
  }
}

/** Lays out three planes as one picture, whose pixels are four floats: L*, a*, b* and 0. */
export function interleave(L: usize, a: usize, b: usize, count: i32, out: usize): void {
  const none = f32x4.splat(0)
  for (let i = 0; i < count; i += 4, L += 16, a += 16, b += 16, out += 64) {
    const low = v128.shuffle<f32>(v128.load(L), v128.load(a), 0, 4, 1, 5)
    const high = v128.shuffle<f32>(v128.load(L), v128.load(a), 2, 6, 3, 7)
    const lowEnds = v128.shuffle<f32>(v128.load(b), none, 0, 4, 1, 5)
    const highEnds = v128.shuffle<f32>(v128.load(b), none, 2, 6, 3, 7)
    v128.store(out, v128.shuffle<i64>(low, lowEnds, 0, 2))
    v128.store(out, v128.shuffle<i64>(low, lowEnds, 1, 3), 16)
    v128.store(out, v128.shuffle<i64>(high, highEnds, 0, 2), 32)
    v128.store(out, v128.shuffle<i64>(high, highEnds, 1, 3), 48)
  }
}

/** The linear light of one channel of four pixels. */
function lightOf(code: usize, linear: usize): v128 {
  let light = v128.load32_zero(linear + (<usize>load<u8>(code) << 2))
  light = v128.load32_lane(linear + (<usize>load<u8>(code, 3) << 2), light, 1)
  light = v128.load32_lane(linear + (<usize>load<u8>(code, 6) << 2), light, 2)
  return v128.load32_lane(linear + (<usize>load<u8>(code, 9) << 2), light, 3)
}

function rowOf(row: usize, red: v128, green: v128, blue: v128): v128 {
  const two = f32x4.add(f32x4.mul(v128.load32_splat(row), red), f32x4.mul(v128.load32_splat(row, 4), green))
  return f32x4.add(two, f32x4.mul(v128.load32_splat(row, 8), blue))
}

function compressed(t: v128): v128 {
  const low = f32x4.add(f32x4.mul(t, f32x4.splat(SLOPE)), f32x4.splat(OFFSET))
  return v128.bitselect(cubeRoot(t), low, f32x4.gt(t, f32x4.splat(EPSILON)))
}

/**
 * A third of the exponent, good to 5 %, as in FreeBSD's s_cbrtf.c (its constant, from memory), then Halley's method twice, which
 * triples the digits each time: exact but for rounding.
 */
function cubeRoot(t: v128): v128 {
  const third = i32x4.trunc_sat_f32x4_s(f32x4.mul(f32x4.convert_i32x4_s(t), f32x4.splat(<f32>(1.0 / 3.0))))
  let root = i32x4.add(third, i32x4.splat(709958130))
  for (let k = 0; k < 2; k++) {
    const cube = f32x4.mul(f32x4.mul(root, root), root)
    const twice = f32x4.add(cube, f32x4.add(t, t))
    root = f32x4.mul(root, f32x4.div(twice, f32x4.add(f32x4.add(cube, cube), t)))
  }
  return root
}
