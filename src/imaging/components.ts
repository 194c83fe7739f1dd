/** How many connected spots (4 neighbours) of at least `least` pixels a 0/1 mask holds. */
export function components(mask: Uint8Array, width: number, least: number): number {
  const seen = new Uint8Array(mask.length)
  let count = 0
  for (let start = 0; start < mask.length; start++) {
    if (mask[start] === 0 || seen[start] === 1) continue
    const queue = [start]
    seen[start] = 1
    for (const at of queue) {
      const x = at % width
      const near = [at - width, at + width, x > 0 ? at - 1 : -1, x < width - 1 ? at + 1 : -1]
      for (const next of near) {
        if (next < 0 || next >= mask.length || mask[next] === 0 || seen[next] === 1) continue
        seen[next] = 1
        queue.push(next)
      }
    }
    if (queue.length >= least) count++
  }
  return count
}
