/** A connected set of pixels, as indexes into its picture. */
export type Region = readonly number[]

/** The connected regions (4-neighbours) of the pixels that are 1. */
export function regionsOf(mask: Uint8Array, width: number): Region[] {
  const left = mask.slice()
  const regions: Region[] = []
  for (let start = 0; start < left.length; start++) {
    if (left[start] !== 1) continue
    const region = [start]
    left[start] = 0
    for (let next = 0; next < region.length; next++) {
      const i = region[next] as number
      const x = i % width
      for (const [near, inside] of [
        [i - 1, x > 0],
        [i + 1, x < width - 1],
        [i - width, true],
        [i + width, true],
      ] as const) {
        if (!inside || left[near] !== 1) continue
        left[near] = 0
        region.push(near)
      }
    }
    regions.push(region)
  }
  return regions
}
