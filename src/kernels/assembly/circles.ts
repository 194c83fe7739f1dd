// Circles in a square of 32-bit floats: how much lighter it is outside of their edge than inside. In double precision.

/** Bytes of a double, of a circle (x, y and radius), and of what is told of it. */
const DOUBLE: usize = 8
const CIRCLE: usize = 24
const TOLD: usize = 16

/**
 * As the definition in tests/kernels/circles.test.ts, of some circles: two doubles each.
 * @param us and vs of the directions to one side and then of those to the other, `count` each
 * @param hidden how many of one side's directions may be hidden
 * @param beside how far from the edge both sides are read
 * @param most that one direction counts
 * @param steps room for `count` doubles
 */
export function circleContrasts(
  gray: usize,
  size: i32,
  us: usize,
  vs: usize,
  count: i32,
  hidden: i32,
  beside: f64,
  most: f64,
  steps: usize,
  circles: usize,
  circleCount: i32,
  out: usize,
): void {
  for (let k = 0; k < circleCount; k++, circles += CIRCLE, out += TOLD)
    tellCircle(gray, size, us, vs, count, hidden, beside, most, steps, circles, out)
}

/** Of one circle: the mean of what both sides have, and the lesser of them. */
function tellCircle(
  gray: usize,
  size: i32,
  us: usize,
  vs: usize,
  count: i32,
  hidden: i32,
  beside: f64,
  most: f64,
  steps: usize,
  circle: usize,
  out: usize,
): void {
  const other = <usize>count * DOUBLE
  const one = sideOf(gray, size, us, vs, count, hidden, beside, most, steps, circle)
  const two = sideOf(gray, size, us + other, vs + other, count, hidden, beside, most, steps, circle)
  store<f64>(out, (one + two) / 2)
  store<f64>(out, min(one, two), DOUBLE)
}

/**
 * Moves a circle, and makes it wider or narrower, as long as that makes its edge clearer.
 * @param moves three doubles each, in steps: to the right, down and outwards
 * @param finer steps, doubles
 * @param rounds most rounds of all moves by each step
 * @param narrowest and widest radius that is tried
 * @param circle x, y and radius, and what {@link circleContrasts} tells of it, changed
 * @param there room for as much
 */
export function improveCircle(
  gray: usize,
  size: i32,
  us: usize,
  vs: usize,
  count: i32,
  hidden: i32,
  beside: f64,
  most: f64,
  steps: usize,
  moves: usize,
  moveCount: i32,
  finer: usize,
  finerCount: i32,
  rounds: i32,
  narrowest: f64,
  widest: f64,
  circle: usize,
  there: usize,
): void {
  tellCircle(gray, size, us, vs, count, hidden, beside, most, steps, circle, circle + CIRCLE)
  for (let k = 0; k < finerCount; k++) {
    const step = load<f64>(finer + <usize>k * DOUBLE)
    let isMoved = true
    for (let round = 0; isMoved && round < rounds; round++) {
      isMoved = false
      for (let m = 0, at = moves; m < moveCount; m++, at += CIRCLE) {
        store<f64>(there, load<f64>(circle) + step * load<f64>(at))
        store<f64>(there, load<f64>(circle, 8) + step * load<f64>(at, 8), 8)
        const radius = load<f64>(circle, 16) + step * load<f64>(at, 16)
        store<f64>(there, min(widest, max(narrowest, radius)), 16)
        tellCircle(gray, size, us, vs, count, hidden, beside, most, steps, there, there + CIRCLE)
        if (load<f64>(there, CIRCLE) <= load<f64>(circle, CIRCLE)) continue
        memory.copy(circle, there, CIRCLE + TOLD)
        isMoved = true
      }
    }
  }
}

function sideOf(
  gray: usize,
  size: i32,
  us: usize,
  vs: usize,
  count: i32,
  hidden: i32,
  beside: f64,
  most: f64,
  steps: usize,
  circle: usize,
): f64 {
  const x = load<f64>(circle)
  const y = load<f64>(circle, 8)
  const outer = load<f64>(circle, 16) + beside
  const inner = load<f64>(circle, 16) - beside
  for (let k = 0; k < count; k++) {
    const u = load<f64>(us + <usize>k * DOUBLE)
    const v = load<f64>(vs + <usize>k * DOUBLE)
    const value = min(grayAt(gray, size, x + outer * u, y + outer * v) - grayAt(gray, size, x + inner * u, y + inner * v), most)
    // In order.
    let at = steps + <usize>k * DOUBLE
    for (; at > steps && load<f64>(at - DOUBLE) > value; at -= DOUBLE) store<f64>(at, load<f64>(at - DOUBLE))
    store<f64>(at, value)
  }
  let sum: f64 = 0
  for (let k = hidden; k < count; k++) sum += load<f64>(steps + <usize>k * DOUBLE)
  return sum / <f64>(count - hidden)
}

/** By bilinear interpolation; 0 beyond the square. */
function grayAt(gray: usize, size: i32, x: f64, y: f64): f64 {
  const column = Math.floor(x)
  const row = Math.floor(y)
  if (column < 0 || row < 0 || column >= <f64>(size - 1) || row >= <f64>(size - 1)) return 0
  const at = gray + (<usize>(<i32>row * size + <i32>column) << 2)
  const below = at + (<usize>size << 2)
  const right = x - column
  const down = y - row
  const upper = <f64>load<f32>(at) * (1 - right) + <f64>load<f32>(at, 4) * right
  const lower = <f64>load<f32>(below) * (1 - right) + <f64>load<f32>(below, 4) * right
  return upper * (1 - down) + lower * down
}
