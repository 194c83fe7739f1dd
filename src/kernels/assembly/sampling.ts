// Colors between the pixels of a picture, 8-bit codes of red, green and blue interleaved.

/** As the definition in tests/kernels/sampling.test.ts. The data begin with the row `first` of the picture. */
export function colorSums(
  data: usize,
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
  const line = 3 * width
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++, out += 24) {
      let red: f64 = 0
      let green: f64 = 0
      let blue: f64 = 0
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
          const at = data + <usize>(<i32>(top - <f64>first) * line + 3 * <i32>left)
          const next: usize = <i32>left < width - 1 ? 3 : 0
          const below: usize = <i32>top < height - 1 ? line : 0
          red += between(at, next, below, right, down)
          green += between(at + 1, next, below, right, down)
          blue += between(at + 2, next, below, right, down)
        }
      }
      store<f64>(out, red)
      store<f64>(out, green, 8)
      store<f64>(out, blue, 16)
    }
  }
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
