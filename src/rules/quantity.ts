/**
 * A number as a person writes it, with its unit: at most one decimal, more only when rounding
 * would make `value` read the same as `against`, the limit that it misses.
 */
export function quantity(value: number, unit: string, against?: number): string {
  let decimals = 1
  while (against !== undefined && decimals < 6 && round(value, decimals) === round(against, decimals))
    decimals++
  return `${round(value, decimals)}${unit}`
}

function round(value: number, decimals: number): number {
  const factor = 10 ** decimals
  const rounded = Math.round(value * factor) / factor
  return rounded === 0 ? 0 : rounded
}

/** A count with its noun: "1 px", "2 files". */
export function count(n: number, one: string, many = `${one}s`): string {
  return `${n} ${n === 1 ? one : many}`
}

/** Whole pixels that make up for `pct` percent of `edgePx`, rounded up (a hair of float error apart). */
export function pixels(pct: number, edgePx: number): string {
  return `${Math.ceil((pct / 100) * edgePx - 1e-6)} px`
}
