// Connected sets of pixels.

/**
 * The connected components (4-neighbors) of the pixels that are 1, each in the order of a breadth-first search.
 * @param left the mask, which is cleared
 * @param found room for an index a pixel: one component behind the other
 * @param ends room for an index a pixel: where each ends
 * @returns how many there are
 */
export function regions(left: usize, width: i32, count: i32, found: usize, ends: usize): i32 {
  const firstEnd = ends
  let end = found
  for (let block = 0; block < count; block += 16)
    for (;;) {
      const bits = i8x16.bitmask(i8x16.neg(v128.load(left + block)))
      if (bits == 0) break
      const start = block + ctz(bits)
      if (start >= count) break
      let next = end
      end = enter(left, start, end)
      for (; next < end; next += 4) {
        const i = load<i32>(next)
        const x = i % width
        if (x > 0) end = enter(left, i - 1, end)
        if (x < width - 1) end = enter(left, i + 1, end)
        if (i >= width) end = enter(left, i - width, end)
        if (i + width < count) end = enter(left, i + width, end)
      }
      store<i32>(ends, <i32>((end - found) >> 2))
      ends += 4
    }
  return <i32>((ends - firstEnd) >> 2)
}

function enter(left: usize, i: i32, end: usize): usize {
  if (load<u8>(left + i) != 1) return end
  store<u8>(left + i, 0)
  store<i32>(end, i)
  return end + 4
}
