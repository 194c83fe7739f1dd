// Where and how fast color changes, in a picture whose pixels are four floats each: L*, a*, b* and 0.

/** Bytes of a pixel, as a power of two. */
const PIXEL: usize = 4
/** Bytes of an edge pixel: its middle, its gradient and its weight, as doubles. */
const EDGE: usize = 40
/** Share by which single precision may read the square of a gradient too small. @choice a hundred times its rounding */
const ROUNDING: f64 = 2e-5

/**
 * How long the gradient is at some pixels, as floats, as in tests/kernels/edges.test.ts.
 * @param reach px to each side between which it is taken
 * @param room for two doubles
 */
export function gradients(
  picture: usize,
  width: i32,
  height: i32,
  reach: i32,
  pixels: usize,
  count: i32,
  room: usize,
  out: usize,
): void {
  for (let k = 0; k < count; k++, pixels += 4, out += 4) {
    const i = load<i32>(pixels)
    const square = steepest(picture, width, height, reach, i % width, i / width, room)
    store<f32>(out, <f32>Math.sqrt(square))
  }
}

/**
 * The pixels of some rows where the gradient is at least so long, but for the outermost columns and those within a radius of a place, as in
 * tests/kernels/edges.test.ts. @returns how many
 * @param most weight that one may have
 * @param out room for an edge pixel for each
 */
export function edgePixels(
  picture: usize,
  width: i32,
  height: i32,
  reach: i32,
  first: i32,
  end: i32,
  least: f64,
  most: f64,
  placeX: f64,
  placeY: f64,
  radius: f64,
  out: usize,
): i32 {
  const start = out
  const limit = f32x4.splat(<f32>(least * least * (1 - ROUNDING)))
  const within = f32x4.splat(1 / <f32>(reach + reach))
  const row = <usize>width << PIXEL
  for (let y = first; y < end; y++) {
    const down = <f64>y + 0.5
    const half = Math.sqrt(max(0, radius * radius - (down - placeY) * (down - placeY)))
    const top = max(0, y - reach)
    const bottom = min(height - 1, y + reach)
    const here = picture + row * <usize>y
    const above = picture + row * <usize>top
    const below = picture + row * <usize>bottom
    const perRow = f32x4.splat(1 / <f32>(bottom - top))
    for (let x = 1; x < width - 1; x++) {
      const right = <f64>x + 0.5
      if (Math.abs(right - placeX) < half) continue
      const before = max(0, x - reach)
      const after = min(width - 1, x + reach)
      const perPixel = after - before == 2 * reach ? within : f32x4.splat(1 / <f32>(after - before))
      const at = <usize>x << PIXEL
      const across = f32x4.mul(rise(here + (<usize>before << PIXEL), here + (<usize>after << PIXEL)), perPixel)
      const along = f32x4.mul(rise(above + at, below + at), perRow)
      const squares = f32x4.add(f32x4.mul(across, across), f32x4.mul(along, along))
      if (!v128.any_true(f32x4.ge(squares, limit))) continue
      const size = Math.sqrt(steepest(picture, width, height, reach, x, y, out + 16))
      if (size < least) continue
      store<f64>(out, right)
      store<f64>(out, down, 8)
      store<f64>(out, min(most, size), 32)
      out += EDGE
    }
  }
  return <i32>((out - start) / EDGE)
}

/** How much each plane rises from one pixel to another. */
function rise(from: usize, to: usize): v128 {
  return f32x4.sub(v128.load(to), v128.load(from))
}

/** The gradient of the plane that changes fastest, in double precision. @returns its square */
function steepest(picture: usize, width: i32, height: i32, reach: i32, x: i32, y: i32, out: usize): f64 {
  const before = max(0, x - reach)
  const after = min(width - 1, x + reach)
  const top = max(0, y - reach)
  const bottom = min(height - 1, y + reach)
  const here = picture + (<usize>(width * y) << PIXEL)
  const left = here + (<usize>before << PIXEL)
  const right = here + (<usize>after << PIXEL)
  const above = picture + (<usize>(width * top + x) << PIXEL)
  const below = picture + (<usize>(width * bottom + x) << PIXEL)
  const runs = f64x2(<f64>(after - before), <f64>(bottom - top))
  let most: f64 = 0
  v128.store(out, f64x2.splat(0))
  for (let plane: usize = 0; plane < 12; plane += 4) {
    const to = f64x2(<f64>load<f32>(right + plane), <f64>load<f32>(below + plane))
    const from = f64x2(<f64>load<f32>(left + plane), <f64>load<f32>(above + plane))
    const gradient = f64x2.div(f64x2.sub(to, from), runs)
    const squares = f64x2.mul(gradient, gradient)
    const square = f64x2.extract_lane(squares, 0) + f64x2.extract_lane(squares, 1)
    if (square <= most) continue
    most = square
    v128.store(out, gradient)
  }
  return most
}

/**
 * Adds the weight of each edge pixel to the bins of lines through it that its gradient is about square to, as in tests/kernels/edges.test.ts.
 * @param normals of each bin of angles, and of `near` around the first and the last, the cosines, then the sines, then where the bin of rho 0 is, as doubles
 * @param count of them
 * @param step of rho, px
 */
export function castVotes(
  edges: usize,
  edgeCount: i32,
  middleX: f64,
  middleY: f64,
  normals: usize,
  count: i32,
  angles: i32,
  near: i32,
  step: f64,
  votes: usize,
): void {
  const middle = f64x2(middleX, middleY)
  const plane = <usize>count << 3
  const perStep = f64x2.splat(1 / step)
  const half = f64x2.splat(0.5)
  for (let k = 0; k < edgeCount; k++, edges += EDGE) {
    const place = f64x2.sub(v128.load(edges), middle)
    const right = f64x2.splat(f64x2.extract_lane(place, 0))
    const down = f64x2.splat(f64x2.extract_lane(place, 1))
    const direction = Math.atan2(load<f64>(edges, 24), load<f64>(edges, 16))
    const weight = load<f64>(edges, 32)
    const first = <i32>Math.floor((direction * <f64>angles) / Math.PI + 0.5) + angles
    // Two normals at a time.
    for (let n = 0; n <= 2 * near; n += 2) {
      const at = normals + (<usize>(first + n) << 3)
      const rho = f64x2.add(f64x2.mul(right, v128.load(at)), f64x2.mul(down, v128.load(at + plane)))
      const bin = f64x2.floor(f64x2.add(f64x2.mul(rho, perStep), half))
      const bins = i32x4.trunc_sat_f64x2_s_zero(f64x2.add(v128.load(at + 2 * plane), bin))
      addVote(votes, i32x4.extract_lane(bins, 0), weight)
      if (n < 2 * near) addVote(votes, i32x4.extract_lane(bins, 1), weight)
    }
  }
}

function addVote(votes: usize, bin: i32, weight: f64): void {
  const at = votes + (<usize>bin << 2)
  store<f32>(at, <f32>(<f64>load<f32>(at) + weight))
}
