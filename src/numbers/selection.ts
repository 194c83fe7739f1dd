/** Fewest values for which counting digits is faster than sorting. @tuned by timing both, no figures kept. */
const FEW = 256

/** The digits of a 32-bit key from the highest: the place of their lowest bit, and how many bits. @choice three passes of nearly equal digits. */
const DIGITS = [
  [21, 11],
  [10, 11],
  [0, 10],
] as const

// Reused from call to call; its contents have no meaning between them.
let keys = new Int32Array(0)
const counts = new Int32Array(2 ** DIGITS[0][1])
const oneKey = new Int32Array(1)
const oneValue = new Float32Array(oneKey.buffer)

/**
 * The value that would stand at `rank` (from 0) if the values were sorted as `Float32Array.prototype.sort` does it;
 * the values stay as they are. Counts digits (a radix search), so the time grows with the number of values alone.
 */
export function nthSmallest(values: Float32Array, rank: number): number {
  if (values.length < FEW) return values.slice().sort()[rank] as number
  let n = loadKeys(values)
  let left = rank
  let found = 0
  for (const [shift, bits] of DIGITS) {
    const digits = 2 ** bits - 1
    counts.fill(0)
    for (let i = 0; i < n; i++) {
      const digit = ((keys[i] as number) >>> shift) & digits
      counts[digit] = (counts[digit] as number) + 1
    }
    let digit = 0
    while (left >= (counts[digit] as number)) left -= counts[digit++] as number
    found |= digit << shift
    let kept = 0
    for (let i = 0; i < n; i++) {
      const key = keys[i] as number
      // Kept or not, it is written: what guesses which would guess wrongly every other time.
      keys[kept] = key
      kept += Number(((key >>> shift) & digits) === digit)
    }
    n = kept
  }
  oneKey[0] = found < 0 ? found ^ SIGN : ~found
  return oneValue[0] as number
}

/** The highest bit of a 32-bit number. @source IEEE 754: the sign. */
const SIGN = -0x80000000

/** Its place. @source IEEE 754. */
const SIGN_PLACE = 31

/** The bits of infinity; those of what is not a number are larger but for the sign. @source IEEE 754. */
const INFINITY_BITS = 0x7f800000

/**
 * Turns the values into keys whose order as unsigned numbers is theirs: the bits of a float (IEEE 754) rise with its
 * size, so those of positive ones get the highest bit, and those of negative ones are turned over.
 */
function loadKeys(values: Float32Array): number {
  const n = values.length
  if (keys.length < n) keys = new Int32Array(2 * n)
  const bits = new Int32Array(values.buffer, values.byteOffset, n)
  for (let i = 0; i < n; i++) {
    const bit = bits[i] as number
    // Not a number comes last, whatever its sign.
    keys[i] = (bit & ~SIGN) > INFINITY_BITS ? -1 : bit ^ ((bit >> SIGN_PLACE) | SIGN)
  }
  return n
}
