// The outer part of a picture along one side, filled with one color: rows of pixels from the frame's edge inward.

/** Bytes of a line: where it starts and its slope, as doubles. */
const LINE: usize = 16
/** Bytes of what is told of a bin. */
const SUMS: usize = 24

/** As the definition in tests/kernels/strips/fills.test.ts, for some lines one after the other. @param red and all that follows: see {@link sumLine} */
export function fillSums(
  reds: usize,
  greens: usize,
  blues: usize,
  length: i32,
  lines: usize,
  count: i32,
  red: f64,
  green: f64,
  blue: f64,
  bins: i32,
  size: i32,
  read: i32,
  deepest: f64,
  clear: f64,
  rows: i32,
  out: usize,
): void {
  for (let k = 0; k < count; k++, lines += LINE, out += SUMS * <usize>bins) {
    const start = load<f64>(lines)
    const slope = load<f64>(lines, 8)
    sumLine(reds, greens, blues, length, start, slope, red, green, blue, bins, size, read, deepest, clear, rows, out)
  }
}

/**
 * Of each bin of positions the squares of what the colors outside of the line differ by
 * from those inside of it, the same less a fill as far as the line leaves it in a pixel, and how many values there are, as doubles.
 * @param reds, greens and blues of bytes, `length` a row
 * @param size positions of a bin, of which `read` are read
 * @param deepest lines that are deeper in the middle of a bin are left out there
 * @param clear how far inside of the line a place is not blurred
 * @param rows that are compared
 */
function sumLine(
  reds: usize,
  greens: usize,
  blues: usize,
  length: i32,
  start: f64,
  slope: f64,
  red: f64,
  green: f64,
  blue: f64,
  bins: i32,
  size: i32,
  read: i32,
  deepest: f64,
  clear: f64,
  rows: i32,
  out: usize,
): void {
  const stride = <f64>size / <f64>read
  for (let bin = 0; bin < bins; bin++, out += SUMS) {
    const from = bin * size
    const middle = start + slope * (<f64>from + <f64>size / 2)
    let without: f64 = 0
    let within: f64 = 0
    let count = 0
    for (let k = 0; k < read && middle >= 0.5 && middle <= deepest; k++) {
      const t = from + <i32>Math.floor(<f64>k * stride)
      const edge = start + slope * (<f64>t + 0.5)
      const last = <i32>Math.ceil(edge + 0.5)
      const first = max(0, last - rows)
      const inside = max(0, <i32>Math.ceil(edge + clear)) * length + t
      for (let c = 0; c < 3; c++) {
        const plane = c == 0 ? reds : c == 1 ? greens : blues
        const beyond = (<f64>load<u8>(plane + inside) + <f64>load<u8>(plane + inside + length)) / 2
        const fill = (c == 0 ? red : c == 1 ? green : blue) - beyond
        let at = plane + first * length + t
        for (let d = first; d < last; d++, at += length) {
          const off = <f64>load<u8>(at) - beyond
          const left = off - max(0, min(1, edge - <f64>d)) * fill
          without += off * off
          within += left * left
          count++
        }
      }
    }
    store<f64>(out, without)
    store<f64>(out, within, 8)
    store<f64>(out, <f64>count, 16)
  }
}

/**
 * As the definition in tests/kernels/strips/fills.test.ts: how far each column runs inward before its color differs by more than each tolerance.
 * @param reds, greens and blues of bytes, `length` a row
 * @param depth rows, at most 255
 * @param tolerances bytes, rising
 * @param runs room for a row of bytes for each tolerance
 * @param room bytes of such a row: length, rounded up to a multiple of sixteen
 */
export function runsWithin(
  reds: usize,
  greens: usize,
  blues: usize,
  length: i32,
  depth: i32,
  red: i32,
  green: i32,
  blue: i32,
  tolerances: usize,
  count: i32,
  runs: usize,
  room: i32,
): void {
  const r = i8x16.splat(<i8>red)
  const g = i8x16.splat(<i8>green)
  const b = i8x16.splat(<i8>blue)
  for (let x = 0; x < room; x += 16) {
    let most = i8x16.splat(0)
    for (let k = 0; k < count; k++) v128.store(runs + k * room + x, i8x16.splat(0))
    const largest = i8x16.splat(load<i8>(tolerances + count - 1))
    for (let d = 0, at = x; d < depth; d++, at += length) {
      const here = i8x16.max_u(
        i8x16.max_u(apart(v128.load(reds + at), r), apart(v128.load(greens + at), g)),
        apart(v128.load(blues + at), b),
      )
      most = i8x16.max_u(most, here)
      if (!v128.any_true(i8x16.le_u(most, largest))) break
      for (let k = 0; k < count; k++) {
        const run = runs + k * room + x
        const within = i8x16.le_u(most, i8x16.splat(load<i8>(tolerances + k)))
        v128.store(run, i8x16.sub(v128.load(run), within))
      }
    }
  }
}

function apart(a: v128, b: v128): v128 {
  return v128.or(i8x16.sub_sat_u(a, b), i8x16.sub_sat_u(b, a))
}

/**
 * As the definition in tests/kernels/strips/fills.test.ts: the line of one of some slopes on which most of every `stride`th run end, of those that do
 * within the strip.
 * @param runs bytes, one for each position
 * @param origin position at which lines start
 * @param slopes doubles
 * @param votes room for twice as many whole numbers as there are rows, and one more
 * @param out a double: where the line starts
 * @returns which slope it has; -1 where nothing ends
 */
export function commonLine(
  runs: usize,
  length: i32,
  depth: i32,
  origin: i32,
  stride: i32,
  slopes: usize,
  count: i32,
  votes: usize,
  out: usize,
): i32 {
  const bins = 2 * depth + 1
  let most = 0
  let found = -1
  for (let k = 0; k < count; k++) {
    const slope = load<f64>(slopes + (<usize>k << 3))
    memory.fill(votes, 0, <usize>bins << 2)
    let first = bins
    let last = 0
    for (let t = 0; t < length; t += stride) {
      const run = <i32>load<u8>(runs + t)
      if (run < 1 || run >= depth) continue
      const bin = <i32>Math.floor(<f64>run - slope * <f64>(t - origin) + 0.5)
      if (bin < 0 || bin >= bins - 1) continue
      const at = votes + (<usize>bin << 2)
      store<i32>(at, load<i32>(at) + 1)
      first = min(first, bin)
      last = max(last, bin)
    }
    for (let bin = max(1, first - 1); bin <= last; bin++) {
      const at = votes + (<usize>bin << 2)
      const sum = load<i32>(at - 4) + load<i32>(at) + load<i32>(at, 4)
      if (sum <= most) continue
      most = sum
      found = k
      store<f64>(out, <f64>bin - slope * <f64>origin)
    }
  }
  return found
}

/** How many runs of 1 and more end before a depth. */
export function countEnding(runs: usize, length: i32, depth: i32): i32 {
  let ending = 0
  for (let t = 0; t < length; t++) {
    const run = <i32>load<u8>(runs + t)
    ending += i32(run >= 1 && run < depth)
  }
  return ending
}
