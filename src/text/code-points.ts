/** Orders texts by their Unicode code points, the same on every machine; for `sort`. */
export function byCodePoint(a: string, b: string): number {
  const length = Math.min(a.length, b.length)
  for (let at = 0; at < length; at++) {
    const left = a.charCodeAt(at)
    const right = b.charCodeAt(at)
    if (left !== right) return rank(left) - rank(right)
  }
  return a.length - b.length
}

/** Surrogates stand for code points above all others, though U+E000 to U+FFFF are larger UTF-16 units. */
function rank(unit: number): number {
  return unit >= 0xd800 && unit <= 0xdfff ? unit + 0x10000 : unit
}
