/**
 * Power of values at some frequencies, |F|² under a Hann window (Harris, Proceedings of the IEEE 66, 1978), without their mean.
 * @param frequencies cycles per value, 0 to 0.5
 * @source Goertzel, American Mathematical Monthly 65(1), 1958
 */
export function powersAt(values: ArrayLike<number>, frequencies: readonly number[]): Float64Array {
  const count = values.length
  const middle = mean(values)
  const window = hannWindow(count)
  const windowed = new Float64Array(count)
  for (let i = 0; i < count; i++) windowed[i] = ((values[i] as number) - middle) * (window[i] as number)
  const powers = new Float64Array(frequencies.length)
  for (let k = 0; k < powers.length; k++) powers[k] = powerAt(windowed, frequencies[k] as number)
  return powers
}

function powerAt(windowed: Float64Array, frequency: number): number {
  const twice = 2 * Math.cos(2 * Math.PI * frequency)
  // One declaration each: taken from a list they would not be kept as plain numbers, which is slow.
  let last = 0
  let before = 0
  for (let i = 0; i < windowed.length; i++) {
    const next = (windowed[i] as number) + twice * last - before
    before = last
    last = next
  }
  return last * last + before * before - twice * last * before
}

/** The last one: lines of one length follow each other. */
let known = new Float64Array(0)

function hannWindow(count: number): Float64Array {
  if (known.length !== count) {
    known = new Float64Array(count)
    for (let i = 0; i < count; i++) known[i] = Math.sin((Math.PI * (i + 0.5)) / count) ** 2
  }
  return known
}

function mean(values: ArrayLike<number>): number {
  let sum = 0
  for (let i = 0; i < values.length; i++) sum += values[i] as number
  return sum / values.length
}
