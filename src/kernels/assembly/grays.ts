// Weighted sums of red, green and blue between the pixels of a picture, 8-bit codes interleaved.

/**
 * Weighted sums of red, green and blue at `size` x `size` places from (left, top) on, a step apart, by bilinear interpolation; pixels are centered at
 * halves, and beyond the picture its edge goes on.
 * @param codes of the part of the picture whose first pixel is (firstX, firstY), `row` bytes a row
 * @param width and height of the whole picture
 */
export function graySquare(
  codes: usize,
  row: i32,
  firstX: i32,
  firstY: i32,
  width: i32,
  height: i32,
  size: i32,
  left: f64,
  top: f64,
  step: f64,
  red: f64,
  green: f64,
  blue: f64,
  out: usize,
): void {
  for (let y = 0; y < size; y++) {
    const py = min(<f64>(height - 1), max(0, top + <f64>y * step - 0.5))
    const above = <i32>py
    const down = py - <f64>above
    const upper = codes + <usize>(row * (above - firstY))
    const lower = codes + <usize>(row * (min(height - 1, above + 1) - firstY))
    for (let x = 0; x < size; x++, out += 4) {
      const px = min(<f64>(width - 1), max(0, left + <f64>x * step - 0.5))
      const before = <i32>px
      const right = px - <f64>before
      const at = <usize>(3 * (before - firstX))
      const next = <usize>(3 * (min(width - 1, before + 1) - firstX))
      const a = weighed(upper + at, red, green, blue)
      const b = weighed(upper + next, red, green, blue)
      const c = weighed(lower + at, red, green, blue)
      const d = weighed(lower + next, red, green, blue)
      store<f32>(out, <f32>((a * (1 - right) + b * right) * (1 - down) + (c * (1 - right) + d * right) * down))
    }
  }
}

function weighed(codes: usize, red: f64, green: f64, blue: f64): f64 {
  return red * <f64>load<u8>(codes) + green * <f64>load<u8>(codes, 1) + blue * <f64>load<u8>(codes, 2)
}

/**
 * Sums of weighted red, green and blue over the `places` x `places` places of each cell, row by row, by bilinear interpolation; pixels are centered at
 * halves. Not a number where one of the places lies outside the picture.
 * @param xs, ys of the places of a row, but for what the row adds: `downXs`, `downYs`
 */
export function graySums(
  codes: usize,
  width: i32,
  height: i32,
  xs: usize,
  ys: usize,
  columns: i32,
  downXs: usize,
  downYs: usize,
  rows: i32,
  places: i32,
  red: f64,
  green: f64,
  blue: f64,
  out: usize,
): void {
  for (let row = 0; row < rows; row++)
    for (let column = 0; column < columns; column++, out += 8) {
      let sum: f64 = 0
      for (let j = row * places; j < (row + 1) * places; j++) {
        const downX = load<f64>(downXs + (<usize>j << 3))
        const downY = load<f64>(downYs + (<usize>j << 3))
        for (let i = column * places; i < (column + 1) * places; i++) {
          const x = load<f64>(xs + (<usize>i << 3)) + downX - 0.5
          const y = load<f64>(ys + (<usize>i << 3)) + downY - 0.5
          sum += grayAt(codes, width, height, x, y, red, green, blue)
        }
      }
      store<f64>(out, sum)
    }
}

/** @param x, y pixels stand at whole numbers */
function grayAt(codes: usize, width: i32, height: i32, x: f64, y: f64, red: f64, green: f64, blue: f64): f64 {
  if (x < -0.5 || y < -0.5 || x > <f64>width - 0.5 || y > <f64>height - 0.5) return NaN
  const left = min(width - 1, max(0, <i32>Math.floor(x)))
  const top = min(height - 1, max(0, <i32>Math.floor(y)))
  const right = min(1, max(0, x - <f64>left))
  const down = min(1, max(0, y - <f64>top))
  const upper = codes + <usize>(3 * width * top)
  const lower = codes + <usize>(3 * width * min(height - 1, top + 1))
  const at = <usize>(3 * left)
  const next = <usize>(3 * min(width - 1, left + 1))
  const a = weighed(upper + at, red, green, blue)
  const b = weighed(upper + next, red, green, blue)
  const c = weighed(lower + at, red, green, blue)
  const d = weighed(lower + next, red, green, blue)
  return (a * (1 - right) + b * right) * (1 - down) + (c * (1 - right) + d * right) * down
}
