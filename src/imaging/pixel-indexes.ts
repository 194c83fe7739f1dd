/** Indexes of the pixels that are 1, in their order. */
export function indexesOf(mask: Uint8Array): Int32Array {
  const all = new Int32Array(mask.length)
  let count = 0
  for (let i = 0; i < mask.length; i++) if (mask[i] === 1) all[count++] = i
  return all.slice(0, count)
}

/** The values of a plane at these pixels. */
export function valuesAt(plane: Float32Array, indexes: Int32Array): Float32Array {
  const out = new Float32Array(indexes.length)
  for (let k = 0; k < out.length; k++) out[k] = plane[indexes[k] as number] as number
  return out
}

/** About `most` of the indexes, evenly; all when they are fewer. */
export function thinned(indexes: Int32Array, most: number): Int32Array {
  const step = Math.max(1, indexes.length / most)
  const out = new Int32Array(Math.floor(indexes.length / step))
  for (let k = 0; k < out.length; k++) out[k] = indexes[Math.floor(k * step)] as number
  return out
}
