// One list of numbers held against many, which lie one after the other.

/**
 * Correlation with each over the cells, 0..1023, that both have; 0 where there are hardly any, or one is even.
 * @param cells 16-bit whole numbers of a list, a multiple of eight; 0 where there is none
 * @param out a float for each
 */
export function correlations(one: usize, many: usize, count: i32, cells: i32, out: usize): void {
  const none = i32x4.splat(0)
  const ones = i16x8.splat(1)
  const bytes = <usize>cells << 1
  for (let k = 0; k < count; k++, many += bytes, out += 4) {
    let there = none
    let sumA = none
    let sumB = none
    let squaresA = none
    let squaresB = none
    let products = none
    for (let at: usize = 0; at < bytes; at += 16) {
      let a = v128.load(one + at)
      let b = v128.load(many + at)
      const both = v128.and(i16x8.gt_s(a, none), i16x8.gt_s(b, none))
      a = v128.and(a, both)
      b = v128.and(b, both)
      there = i16x8.sub(there, both)
      sumA = i32x4.add(sumA, i32x4.dot_i16x8_s(a, ones))
      sumB = i32x4.add(sumB, i32x4.dot_i16x8_s(b, ones))
      squaresA = i32x4.add(squaresA, i32x4.dot_i16x8_s(a, a))
      squaresB = i32x4.add(squaresB, i32x4.dot_i16x8_s(b, b))
      products = i32x4.add(products, i32x4.dot_i16x8_s(a, b))
    }
    const n = <f64>lanes(i32x4.dot_i16x8_s(there, ones))
    const a = <f64>lanes(sumA)
    const b = <f64>lanes(sumB)
    const both = (n * <f64>lanes(squaresA) - a * a) * (n * <f64>lanes(squaresB) - b * b)
    store<f32>(out, both > 0 ? <f32>((n * <f64>lanes(products) - a * b) / Math.sqrt(both)) : 0)
  }
}

/** The sum of four lanes. */
export function lanes(four: v128): i32 {
  return (
    i32x4.extract_lane(four, 0) + i32x4.extract_lane(four, 1) + i32x4.extract_lane(four, 2) + i32x4.extract_lane(four, 3)
  )
}

/**
 * The inner product with each, in single precision.
 * @param length floats of a list, a multiple of four
 * @param out a float for each
 */
export function innerProducts(one: usize, many: usize, count: i32, length: i32, out: usize): void {
  const bytes = <usize>length << 2
  for (let k = 0; k < count; k++, many += bytes, out += 4) {
    let sum = f32x4.splat(0)
    for (let at: usize = 0; at < bytes; at += 16)
      sum = f32x4.add(sum, f32x4.mul(v128.load(one + at), v128.load(many + at)))
    const two = f32x4.add(sum, v128.shuffle<f32>(sum, sum, 2, 3, 0, 1))
    store<f32>(out, f32x4.extract_lane(two, 0) + f32x4.extract_lane(two, 1))
  }
}
