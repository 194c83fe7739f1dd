// The outer part of a picture along one side: how much each of its rows differs from the next.

/** Positions of a bin: two vectors of lumas. */
const BIN = 16
/** Bytes of a line: where it starts and its slope, as doubles. */
const LINE: usize = 16

/** Sums over bins of positions of what each row of lumas differs by from the next, squared: whole numbers, row by row. */
export function rowSteps(luma: usize, length: i32, rows: i32, bins: i32, out: usize): void {
  const row = <usize>length << 1
  for (let k = 0; k < rows; k++, luma += row)
    for (let bin = 0, at = luma; bin < bins; bin++, at += 2 * BIN, out += 4) {
      const first = i16x8.sub(v128.load(at), v128.load(at + row))
      const second = i16x8.sub(v128.load(at, 16), v128.load(at + row, 16))
      const sums = i32x4.add(i32x4.dot_i16x8_s(first, first), i32x4.dot_i16x8_s(second, second))
      const halves = i32x4.add(sums, v128.shuffle<i32>(sums, sums, 2, 3, 0, 1))
      store<i32>(out, i32x4.extract_lane(halves, 0) + i32x4.extract_lane(halves, 1))
    }
}

/**
 * As the definition in tests/kernels/strips/rows.test.ts: what the means of rows and of bins leave of some values, in spreads, added up over the rows further out.
 * @param values doubles, row by row
 * @param least spread, and `most` spreads that a value counts at most
 * @param means room for a double for each row and each bin
 * @param out floats, one row more than there are values; the first is 0
 */
export function addUpRows(
  values: usize,
  rows: i32,
  bins: i32,
  least: f64,
  most: f64,
  means: usize,
  out: usize,
): void {
  const ofBins = means + (<usize>rows << 3)
  memory.fill(means, 0, <usize>(rows + bins) << 3)
  for (let row = 0, at = values; row < rows; row++) {
    let ofRow: f64 = 0
    for (let bin = 0, to = ofBins; bin < bins; bin++, at += 8, to += 8) {
      const value = load<f64>(at)
      ofRow += value / <f64>bins
      store<f64>(to, load<f64>(to) + value / <f64>rows)
    }
    store<f64>(means + (<usize>row << 3), ofRow)
  }
  let all: f64 = 0
  for (let row = 0; row < rows; row++) all += load<f64>(means + (<usize>row << 3)) / <f64>rows
  const cells = out + (<usize>bins << 2)
  let squares: f64 = 0
  for (let row = 0, at = values, to = cells; row < rows; row++) {
    const ofRow = load<f64>(means + (<usize>row << 3))
    for (let bin = 0, from = ofBins; bin < bins; bin++, at += 8, from += 8, to += 4) {
      const own = <f64>(<f32>load<f64>(at)) - ofRow - load<f64>(from) + all
      store<f32>(to, <f32>own)
      squares += own * own
    }
  }
  const spread = max(least, Math.sqrt(squares / <f64>(rows * bins)))
  memory.fill(out, 0, <usize>bins << 2)
  for (let i = 0, at = out; i < rows * bins; i++, at += 4) {
    const to = at + (<usize>bins << 2)
    const told = max(-most, min(most, <f64>load<f32>(to) / spread))
    store<f32>(to, <f32>(<f64>load<f32>(at) + told))
  }
}

/**
 * By how many standard errors the rows outside of each of some lines differ less from the next: doubles, not a number where less than one cell tells.
 * @param sums as {@link addUpRows} adds them up
 * @param lines `start` and `slope` of each
 * @param border how far inside of the line the middle of two rows lies whose difference begins to belong to what is outside
 * @param room for twice a double for each row and one more
 */
export function errorsOutside(
  sums: usize,
  rows: i32,
  bins: i32,
  lines: usize,
  count: i32,
  border: f64,
  room: usize,
  out: usize,
): void {
  const bytes = <usize>(rows + 1) << 3
  for (let k = 0; k < count; k++, lines += LINE, out += 8) {
    const start = load<f64>(lines)
    const slope = load<f64>(lines, 8)
    // Of each row, the bins in which it is the last that lies outside, and behind these the part of the next that does.
    memory.fill(room, 0, 2 * bytes)
    let found: f64 = 0
    let weights: f64 = 0
    let squares: f64 = 0
    let ofBins: f64 = 0
    for (let bin = 0; bin < bins; bin++) {
      const outside = min(<f64>rows, start + slope * ((<f64>bin + 0.5) * BIN) - 1 + border)
      if (outside <= 0) continue
      const whole = <i32>outside
      const part = outside - <f64>whole
      const at = sums + (<usize>(whole * bins + bin) << 2)
      const sum = <f64>load<f32>(at)
      found -= sum + (part > 0 ? part * (<f64>load<f32>(at + (<usize>bins << 2)) - sum) : 0)
      const last = room + (<usize>whole << 3)
      store<f64>(last, load<f64>(last) + 1)
      store<f64>(last + bytes, load<f64>(last + bytes) + part)
      weights += outside
      squares += <f64>whole + part * part
      ofBins += outside * outside
    }
    let ofRows: f64 = 0
    let beyond: f64 = 0
    for (let row = rows - 1; row >= 0; row--) {
      const at = room + (<usize>row << 3)
      beyond += load<f64>(at, 8)
      const weight = beyond + load<f64>(at + bytes)
      ofRows += weight * weight
    }
    // What is left of the weights, too, when the means of rows and of bins are taken from them.
    const own = squares - ofRows / <f64>bins - ofBins / <f64>rows + (weights * weights) / <f64>(bins * rows)
    store<f64>(out, own >= 1 ? found / Math.sqrt(own) : NaN)
  }
}
