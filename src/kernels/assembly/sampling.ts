// Colors between the pixels of a picture, 8-bit codes of red, green and blue interleaved.

/**
 * As the definition in tests/kernels/sampling.test.ts.
 * @param data of a part of the picture, `line` bytes a row, that begins at the pixel `leftmost`, `first`
 */
export function colorSums(
  data: usize,
  line: i32,
  leftmost: i32,
  first: i32,
  width: i32,
  height: i32,
  originX: f64,
  originY: f64,
  axisX: f64,
  axisY: f64,
  unit: f64,
  across: usize,
  columns: i32,
  along: usize,
  rows: i32,
  places: i32,
  out: usize,
): void {
  const start = data - <usize>(first * line + 3 * leftmost)
  // Across and down together.
  const origin = f64x2(originX, originY)
  const straight = f64x2.splat(axisY)
  const turned = f64x2(axisX, -axisX)
  const last = f64x2(<f64>(width - 1), <f64>(height - 1))
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++, out += 24) {
      let redGreen = f64x2.splat(0)
      let blue = f64x2.splat(0)
      for (let j = row * places; j < (row + 1) * places; j++) {
        const v = load<f64>(along + (<usize>j << 3))
        for (let i = column * places; i < (column + 1) * places; i++) {
          const u = load<f64>(across + (<usize>i << 3))
          const way = f64x2.add(f64x2.mul(f64x2(u, v), straight), f64x2.mul(f64x2(v, u), turned))
          const place = f64x2.sub(f64x2.add(origin, f64x2.mul(f64x2.splat(unit), way)), f64x2.splat(0.5))
          const inside = insideOf(place, last)
          const pixel = f64x2.floor(inside)
          const whole = i32x4.trunc_sat_f64x2_s_zero(pixel)
          const left = i32x4.extract_lane(whole, 0)
          const top = i32x4.extract_lane(whole, 1)
          const right = f64x2.extract_lane(f64x2.sub(inside, pixel), 0)
          const down = f64x2.extract_lane(f64x2.sub(inside, pixel), 1)
          const at = start + <usize>(top * line + 3 * left)
          const next: usize = left < width - 1 ? 3 : 0
          const below: usize = top < height - 1 ? line : 0
          const a = color(at)
          const b = color(at + next)
          const c = color(at + below)
          const d = color(at + below + next)
          redGreen = f64x2.add(redGreen, amid(lower(a), lower(b), lower(c), lower(d), right, down))
          blue = f64x2.add(blue, amid(upper(a), upper(b), upper(c), upper(d), right, down))
        }
      }
      v128.store(out, redGreen)
      v128.store64_lane(out + 16, blue, 0)
    }
  }
}

/** The codes of a pixel, and the one behind them, as whole numbers. */
function color(at: usize): v128 {
  return i32x4.extend_low_i16x8_u(i16x8.extend_low_i8x16_u(v128.load32_zero(at)))
}

function lower(codes: v128): v128 {
  return f64x2.convert_low_i32x4_s(codes)
}

function upper(codes: v128): v128 {
  return f64x2.convert_low_i32x4_s(v128.shuffle<i64>(codes, codes, 1, 1))
}

/** Bilinear interpolation of two channels. */
function amid(a: v128, b: v128, c: v128, d: v128, right: f64, down: f64): v128 {
  const atRight = f64x2.splat(right)
  const atLeft = f64x2.splat(1 - right)
  const above = f64x2.add(f64x2.mul(a, atLeft), f64x2.mul(b, atRight))
  const beneath = f64x2.add(f64x2.mul(c, atLeft), f64x2.mul(d, atRight))
  return f64x2.add(f64x2.mul(above, f64x2.splat(1 - down)), f64x2.mul(beneath, f64x2.splat(down)))
}

/**
 * As the definition in tests/kernels/sampling.test.ts: colors at the places of a grid of `size` x `size`, as floats.
 * @param data where the picture's first row would lie: only the rows that the places lie in need be there. Pixels stand at whole numbers
 * @param isBlack whether places outside the picture are black, else the color of the nearest edge
 */
export function colorsAt(
  data: usize,
  width: i32,
  height: i32,
  size: i32,
  firstX: f64,
  firstY: f64,
  columnX: f64,
  columnY: f64,
  rowX: f64,
  rowY: f64,
  scale: f64,
  offset: f64,
  isBlack: i32,
  out: usize,
): void {
  const scales = f64x2.splat(scale)
  const offsets = f64x2.splat(offset)
  // Across and down together.
  const first = f64x2(firstX, firstY)
  const columnStep = f64x2(columnX, columnY)
  const rowStep = f64x2(rowX, rowY)
  const last = f64x2(<f64>(width - 1), <f64>(height - 1))
  for (let row = 0; row < size; row++) {
    const down = f64x2.mul(f64x2.splat(<f64>row), rowStep)
    for (let column = 0; column < size; column++, out += 12) {
      const across = f64x2.mul(f64x2.splat(<f64>column), columnStep)
      const place = f64x2.add(f64x2.add(first, across), down)
      const inside = insideOf(place, last)
      if (isBlack && v128.any_true(f64x2.ne(inside, place))) {
        v128.store64_lane(out, f32x4.demote_f64x2_zero(offsets), 0)
        store<f32>(out + 8, <f32>offset)
        continue
      }
      const pixel = f64x2.floor(inside)
      const rest = f64x2.sub(inside, pixel)
      const whole = i32x4.trunc_sat_f64x2_s_zero(pixel)
      const left = i32x4.extract_lane(whole, 0)
      const top = i32x4.extract_lane(whole, 1)
      const at = data + <usize>(3 * (top * width + left))
      const next: usize = left < width - 1 ? 3 : 0
      const below: usize = top < height - 1 ? 3 * width : 0
      const a = color(at)
      const b = color(at + next)
      const c = color(at + below)
      const d = color(at + below + next)
      const right = f64x2.extract_lane(rest, 0)
      const beneath = f64x2.extract_lane(rest, 1)
      const redGreen = amid(lower(a), lower(b), lower(c), lower(d), right, beneath)
      const blue = amid(upper(a), upper(b), upper(c), upper(d), right, beneath)
      v128.store64_lane(out, scaled(redGreen, scales, offsets), 0)
      v128.store32_lane(out + 8, scaled(blue, scales, offsets), 0)
    }
  }
}

function scaled(values: v128, scales: v128, offsets: v128): v128 {
  return f32x4.demote_f64x2_zero(f64x2.add(f64x2.mul(values, scales), offsets))
}

/** The place in the picture that is nearest to one. */
function insideOf(place: v128, last: v128): v128 {
  return f64x2.pmin(last, f64x2.pmax(f64x2.splat(0), place))
}
