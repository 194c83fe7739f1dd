// Four Fourier transforms at a time, one in each lane.

/**
 * In place; what is transformed stands in bit-reversed order before (radix 2; Cooley & Tukey, Mathematics of Computation 19, 1965).
 * @param re and im, `count` vectors of four floats each
 * @param roots cos, then -sin of 2 pi k / count for k below count / 2, floats
 */
export function transform(re: usize, im: usize, count: i32, roots: usize): void {
  const sines = roots + (<usize>(count >> 1) << 2)
  const end = <usize>count << 4
  for (let half = 1; half < count; half <<= 1) {
    const apart = <usize>half << 4
    const step = count / (2 * half)
    for (let k = 0; k < half; k++) {
      const c = v128.load32_splat(roots + (<usize>(k * step) << 2))
      const s = v128.load32_splat(sines + (<usize>(k * step) << 2))
      for (let a = <usize>k << 4; a < end; a += apart << 1) butterfly(re, im, a, a + apart, c, s)
    }
  }
}

function butterfly(re: usize, im: usize, a: usize, b: usize, c: v128, s: v128): void {
  const bRe = v128.load(re + b)
  const bIm = v128.load(im + b)
  const x = f32x4.sub(f32x4.mul(bRe, c), f32x4.mul(bIm, s))
  const y = f32x4.add(f32x4.mul(bRe, s), f32x4.mul(bIm, c))
  const aRe = v128.load(re + a)
  const aIm = v128.load(im + a)
  v128.store(re + a, f32x4.add(aRe, x))
  v128.store(im + a, f32x4.add(aIm, y))
  v128.store(re + b, f32x4.sub(aRe, x))
  v128.store(im + b, f32x4.sub(aIm, y))
}
