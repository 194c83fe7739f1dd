// Paths through a plane of 32-bit floats, from its first column to its last.

/**
 * As the definition in tests/kernels/paths.test.ts: the values along the path that adds up to most, one a column, each a row up or down from the last at
 * the most. In double precision.
 * @param sign 1, or -1 for the values turned over
 * @param sums room for two doubles a row and four more
 * @param steps room for a byte a value
 * @param out floats, one a column
 */
export function clearestPath(
  values: usize,
  columns: i32,
  rows: i32,
  sign: f64,
  sums: usize,
  steps: usize,
  out: usize,
): void {
  const line = <usize>columns << 2
  const bytes = <usize>(rows + 2) << 3
  // Of the paths to each row of the column before and of this one; rows that are none, above and below, have none.
  let before = sums
  let here = sums + bytes
  for (let at: usize = 0; at < 2 * bytes; at += 8) store<f64>(sums + at, -Infinity)
  for (let row = 0; row < rows; row++) store<f64>(here + (<usize>row << 3), sign * <f64>load<f32>(values + line * row), 8)
  for (let column = 1; column < columns; column++) {
    const last = before
    before = here
    here = last
    let at = values + (<usize>column << 2)
    let to = steps + column
    for (let row = 0; row < rows; row++, at += line, to += columns) {
      const above = load<f64>(before + (<usize>row << 3))
      let best = load<f64>(before + (<usize>row << 3), 8)
      const below = load<f64>(before + (<usize>row << 3), 16)
      let step = 0
      if (above > best) {
        best = above
        step = -1
      }
      if (below > best) {
        best = below
        step = 1
      }
      store<i8>(to, <i8>step)
      store<f64>(here + (<usize>row << 3), best + sign * <f64>load<f32>(at), 8)
    }
  }
  let row = 0
  for (let k = 1; k < rows; k++)
    if (load<f64>(here + (<usize>k << 3), 8) > load<f64>(here + (<usize>row << 3), 8)) row = k
  for (let column = columns - 1; column >= 0; column--) {
    const at = row * columns + column
    store<f32>(out + (<usize>column << 2), <f32>(sign * <f64>load<f32>(values + (<usize>at << 2))))
    if (column > 0) row += load<i8>(steps + at)
  }
}
