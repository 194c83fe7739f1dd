// One of many values by its rank: a radix search, so the time grows with the number of values alone.

/** The bits of infinity; those of what is not a number are larger but for the sign (IEEE 754). */
const INFINITY_BITS: u32 = 0x7f800000
const SIGN: u32 = 0x80000000

/**
 * As the definition in tests/numbers/selection.test.ts: the float that would stand at a rank, from 0, if all were sorted.
 * @param values turned into keys, and lost
 * @param counts room for 2048 times 32 bits
 */
export function nthSmallest(values: usize, count: i32, rank: i32, counts: usize): f32 {
  for (let at = values, end = values + (<usize>count << 2); at < end; at += 4) {
    const bits = load<u32>(at)
    // Keys rise with the values as unsigned numbers: positive ones get the highest bit, negative ones are turned over. Not a number comes last.
    const key = bits ^ (<u32>(<i32>bits >> 31) | SIGN)
    store<u32>(at, (bits & ~SIGN) > INFINITY_BITS ? 0xffffffff : key)
  }
  let left = count
  let found: u32 = 0
  for (let shift: u32 = 21, bits: u32 = 11; ; ) {
    const digits = (<u32>1 << bits) - 1
    memory.fill(counts, 0, (<usize>digits + 1) << 2)
    const end = values + (<usize>left << 2)
    for (let at = values; at < end; at += 4) {
      const place = counts + (<usize>((load<u32>(at) >> shift) & digits) << 2)
      store<i32>(place, load<i32>(place) + 1)
    }
    let digit: u32 = 0
    for (let here = load<i32>(counts); rank >= here; here = load<i32>(counts + (<usize>digit << 2))) {
      rank -= here
      digit++
    }
    found |= digit << shift
    if (shift == 0) break
    let kept = values
    for (let at = values; at < end; at += 4) {
      const key = load<u32>(at)
      // Kept or not, it is written: what guesses which would guess wrongly every other time.
      store<u32>(kept, key)
      kept += <usize>(((key >> shift) & digits) == digit) << 2
    }
    left = <i32>((kept - values) >> 2)
    bits = shift == 21 ? 11 : 10
    shift -= bits
  }
  return reinterpret<f32>((found & SIGN) != 0 ? found ^ SIGN : ~found)
}

/**
 * Indexes of the floats that would stand from one rank to another, both included, if all were sorted; of equal ones the first has the lowest rank.
 * @param low and high the values of both ranks
 */
export function betweenRanks(values: usize, count: i32, from: i32, to: i32, low: f32, high: f32, out: usize): void {
  let lowRank = 0
  let highRank = 0
  for (let at = values, end = values + (<usize>count << 2); at < end; at += 4) {
    const value = load<f32>(at)
    lowRank += i32(value < low)
    highRank += i32(value < high)
  }
  const end = out + (<usize>(to - from + 1) << 2)
  for (let i = 0; out < end; i++, values += 4) {
    const value = load<f32>(values)
    if (value < low || value > high) continue
    if (value == low && lowRank++ < from) continue
    if (value == high && high > low && highRank++ > to) continue
    store<i32>(out, i)
    out += 4
  }
}
