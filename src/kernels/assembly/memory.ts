// The memory that one call works in: what lies behind the module's own data, taken in order and given back as a whole.

/** Between two takings: kernels go four or sixteen values at a time, and the last step may reach beyond the end. */
const SLACK: usize = 64
const PAGE_BITS = 16

let free: usize = __heap_base

/** The address of so many bytes, a multiple of 64. */
export function take(bytes: usize): usize {
  const at = (free + 63) & ~63
  free = at + bytes + SLACK
  const lacking = <i32>((free + 65535) >> PAGE_BITS) - memory.size()
  if (lacking > 0 && memory.grow(lacking) < 0) unreachable()
  return at
}

/** Where that of which nothing was taken yet begins. */
export function taken(): usize {
  return free
}

/** Gives back what was taken since {@link taken} told that place; all of it for 0. */
export function giveBack(to: usize): void {
  free = max(to, __heap_base)
}
