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
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++, out += 24) {
      let redGreen = f64x2.splat(0)
      let blue = f64x2.splat(0)
      for (let j = row * places; j < (row + 1) * places; j++) {
        const v = load<f64>(along + (<usize>j << 3))
        for (let i = column * places; i < (column + 1) * places; i++) {
          const u = load<f64>(across + (<usize>i << 3))
          const x = within(originX + unit * (u * axisY + v * axisX) - 0.5, width - 1)
          const y = within(originY + unit * (v * axisY - u * axisX) - 0.5, height - 1)
          const left = Math.floor(x)
          const top = Math.floor(y)
          const right = x - left
          const down = y - top
          const at = start + <usize>(<i32>top * line + 3 * <i32>left)
          const next: usize = <i32>left < width - 1 ? 3 : 0
          const below: usize = <i32>top < height - 1 ? line : 0
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
  return f64x2.convert_low_i32x4_u(codes)
}

function upper(codes: v128): v128 {
  return f64x2.convert_low_i32x4_u(v128.shuffle<i64>(codes, codes, 1, 1))
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
 * @param data of the whole picture; pixels stand at whole numbers
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
  for (let row = 0; row < size; row++) {
    for (let column = 0; column < size; column++, out += 12) {
      const placeX = firstX + <f64>column * columnX + <f64>row * rowX
      const placeY = firstY + <f64>column * columnY + <f64>row * rowY
      const x = within(placeX, width - 1)
      const y = within(placeY, height - 1)
      if (isBlack && (x != placeX || y != placeY)) {
        for (let channel: usize = 0; channel < 12; channel += 4) store<f32>(out + channel, <f32>offset)
        continue
      }
      const left = Math.floor(x)
      const top = Math.floor(y)
      const at = data + <usize>(3 * (<i32>top * width + <i32>left))
      const next: usize = <i32>left < width - 1 ? 3 : 0
      const below: usize = <i32>top < height - 1 ? 3 * width : 0
      for (let channel: usize = 0; channel < 3; channel++) {
        const value = between(at + channel, next, below, x - left, y - top)
        store<f32>(out + (channel << 2), <f32>(value * scale + offset))
      }
    }
  }
}

function within(value: f64, last: i32): f64 {
  return min(<f64>last, max(0, value))
}

/** Bilinear interpolation. */
function between(at: usize, next: usize, below: usize, right: f64, down: f64): f64 {
  const upper = <f64>load<u8>(at) * (1 - right) + <f64>load<u8>(at + next) * right
  const lower = <f64>load<u8>(at + below) * (1 - right) + <f64>load<u8>(at + below + next) * right
  return upper * (1 - down) + lower * down
}
