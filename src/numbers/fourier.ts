const TURN = 2 * Math.PI
const roots = new Map<number, { readonly cos: Float64Array; readonly sin: Float64Array }>()

/**
 * Discrete Fourier transform of complex values, in place: X[k] = sum of x[n] exp(-2 pi i k n / N) (radix 2; Cooley & Tukey,
 * Mathematics of Computation 19, 1965).
 * @param re and im real and imaginary parts; their length must be the same power of two
 */
export function transform(re: Float64Array, im: Float64Array): void {
  const count = re.length
  reorder(re, im)
  const { cos, sin } = rootsOf(count)
  const done = count >= BLOCK ? BLOCK : 1
  if (done > 1) firstTwoStages(re, im)
  for (let half = done; half < count; half *= 2) {
    const step = count / (2 * half)
    for (let start = 0; start < count; start += 2 * half) {
      for (let k = 0; k < half; k++) {
        const a = start + k
        const b = a + half
        const c = cos[k * step] as number
        const s = sin[k * step] as number
        const x = (re[b] as number) * c - (im[b] as number) * s
        const y = (re[b] as number) * s + (im[b] as number) * c
        re[b] = (re[a] as number) - x
        im[b] = (im[a] as number) - y
        re[a] = (re[a] as number) + x
        im[a] = (im[a] as number) + y
      }
    }
  }
}

/** Values that the first two stages join. @choice definition: 2 x 2; their roots of unity are 1 and -i, so that nothing is multiplied. */
const BLOCK = 4

function firstTwoStages(re: Float64Array, im: Float64Array): void {
  for (let a = 0; a < re.length; a += BLOCK) {
    const b = a + 1
    const c = a + 2
    const d = a + 3
    const sumRe = (re[a] as number) + (re[b] as number)
    const sumIm = (im[a] as number) + (im[b] as number)
    const offRe = (re[a] as number) - (re[b] as number)
    const offIm = (im[a] as number) - (im[b] as number)
    const nextSumRe = (re[c] as number) + (re[d] as number)
    const nextSumIm = (im[c] as number) + (im[d] as number)
    const nextOffRe = (re[c] as number) - (re[d] as number)
    const nextOffIm = (im[c] as number) - (im[d] as number)
    re[a] = sumRe + nextSumRe
    im[a] = sumIm + nextSumIm
    re[b] = offRe + nextOffIm
    im[b] = offIm - nextOffRe
    re[c] = sumRe - nextSumRe
    im[c] = sumIm - nextSumIm
    re[d] = offRe - nextOffIm
    im[d] = offIm + nextOffRe
  }
}

/** The smallest power of two that is not below a count. */
export function powerOfTwo(count: number): number {
  return 2 ** Math.ceil(Math.log2(Math.max(1, count)))
}

/** Puts each value where its index read backwards in binary says. */
function reorder(re: Float64Array, im: Float64Array): void {
  const count = re.length
  for (let i = 1, j = 0; i < count; i++) {
    let bit = count >> 1
    for (; j & bit; bit >>= 1) j ^= bit
    j |= bit
    if (i >= j) continue
    const real = re[i] as number
    const imaginary = im[i] as number
    re[i] = re[j] as number
    im[i] = im[j] as number
    re[j] = real
    im[j] = imaginary
  }
}

function rootsOf(count: number): { readonly cos: Float64Array; readonly sin: Float64Array } {
  const known = roots.get(count)
  if (known) return known
  const angles = Float64Array.from({ length: count / 2 }, (_, i) => (TURN * i) / count)
  const made = { cos: angles.map(Math.cos), sin: angles.map((angle) => -Math.sin(angle)) }
  roots.set(count, made)
  return made
}
