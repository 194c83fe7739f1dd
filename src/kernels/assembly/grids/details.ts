// Grids without slow changes and the finest detail (see grids.ts).
import { strideOf } from './grids'

/**
 * Mean of the near square of cells minus that of the wide one, plus `middle`; none where the wide one isn't whole.
 * @param lines room for three rows and a vector
 */
export function details(
  grid: usize,
  columns: i32,
  rows: i32,
  near: i32,
  wide: i32,
  middle: f32,
  lines: usize,
  out: usize,
): void {
  const stride = strideOf(columns)
  const line = <usize>stride << 2
  memory.fill(out, 0, line * <usize>rows)
  memory.fill(lines, 0, 3 * line + 16)
  const none = f32x4.splat(0)
  const nearEdge = 2 * near + 1
  const wideEdge = 2 * wide + 1
  const nearCells = f32x4.splat(<f32>(nearEdge * nearEdge))
  const wideCells = f32x4.splat(<f32>(wideEdge * wideEdge))
  for (let row = wide; row < rows - wide; row++) {
    // Down each column, then across.
    for (let at: usize = 0; at < line; at += 16) {
      let from = grid + <usize>(row - wide) * line + at
      let least = v128.load(from)
      let nearSum = none
      let wideSum = none
      for (let y = -wide; y <= wide; y++, from += line) {
        const value = v128.load(from)
        least = f32x4.pmin(least, value)
        wideSum = f32x4.add(wideSum, value)
        if (abs(y) <= near) nearSum = f32x4.add(nearSum, value)
      }
      v128.store(lines + at, least)
      v128.store(lines + at + line, nearSum)
      v128.store(lines + at + 2 * line, wideSum)
    }
    for (let column = wide; column < columns - wide; column += 4) {
      let from = lines + (<usize>(column - wide) << 2)
      let least = v128.load(from)
      let nearSum = none
      let wideSum = none
      for (let x = -wide; x <= wide; x++, from += 4) {
        least = f32x4.pmin(least, v128.load(from))
        wideSum = f32x4.add(wideSum, v128.load(from + 2 * line))
        if (abs(x) <= near) nearSum = f32x4.add(nearSum, v128.load(from + line))
      }
      const means = f32x4.sub(f32x4.div(nearSum, nearCells), f32x4.div(wideSum, wideCells))
      const value = v128.and(f32x4.add(f32x4.splat(middle), means), f32x4.gt(least, none))
      v128.store(out + (<usize>(row * stride + column) << 2), value)
    }
  }
}
