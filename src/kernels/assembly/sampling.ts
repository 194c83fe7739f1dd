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

function within(value: f64, last: i32): f64 {
  return min(<f64>last, max(0, value))
}

/** Bilinear interpolation. */
function between(at: usize, next: usize, below: usize, right: f64, down: f64): f64 {
  const upper = <f64>load<u8>(at) * (1 - right) + <f64>load<u8>(at + next) * right
  const lower = <f64>load<u8>(at + below) * (1 - right) + <f64>load<u8>(at + below + next) * right
  return upper * (1 - down) + lower * down
}
