import { type Limits, sideOf } from '../numbers/limits.ts'

const OPEN: Limits = { min: -Infinity, max: Infinity }

/**
 * A measured number as a person writes it, with its unit: to one decimal, or to two where a limit has two; more only when rounding
 * would carry it over one of them and so make a failure look like a pass, or a pass like a miss.
 */
export function quantity(value: number, unit: string, limits = OPEN): string {
  const side = sideOf(value, limits)
  for (let decimals = decimalsOf(limits); decimals <= 9; decimals++) {
    const rounded = round(value, decimals)
    if (sideOf(rounded, limits) === side) return `${plain(rounded, decimals)}${unit}`
  }
  return `${value}${unit}`
}

/** What numbers were written as, by their units: a spec has few, and thousands of files are held to each. */
const WRITTEN = new Map<string, Map<number, string>>()
const MOST_WRITTEN = 1000

/** A number of the spec, written as it stands there: never rounded, only freed of float noise (0.1 + 0.2). */
export function asked(value: number, unit = ''): string {
  const written = WRITTEN.get(unit) ?? new Map<number, string>()
  const known = written.get(value)
  if (known !== undefined) return known
  if (WRITTEN.size > MOST_WRITTEN) WRITTEN.clear()
  if (written.size > MOST_WRITTEN) written.clear()
  const text = `${Number(value.toPrecision(12))}${unit}`
  WRITTEN.set(unit, written.set(value, text))
  return text
}

/** An amount to change by: rounded up to a tenth, so that doing what it says is enough. */
export function atLeast(amount: number, unit: string): string {
  return `${Math.ceil(amount * 10 - 1e-6) / 10}${unit}`
}

/** One or two: a limit of more was computed, and nobody means all of its digits. */
function decimalsOf({ min, max }: Limits): number {
  // Most limits are whole numbers, or open.
  const isFine = (limit: number) => limit % 1 !== 0 && Number.isFinite(limit) && /\.\d\d$/.test(asked(limit))
  return isFine(min) || isFine(max) ? 2 : 1
}

function round(value: number, decimals: number): number {
  const factor = 10 ** decimals
  const rounded = Math.round(value * factor) / factor
  return rounded === 0 ? 0 : rounded
}

/** Without the exponent that small numbers get by default (5e-7), and without trailing zeros. */
function plain(rounded: number, decimals: number): string {
  const size = Math.abs(rounded)
  // JavaScript writes up to 15 digits as they are, and such numbers without an exponent.
  if (rounded === 0 || (size >= 1e-6 && size * 10 ** decimals < 1e15)) return `${rounded}`
  return rounded.toFixed(decimals).replace(/\.?0+$/, '')
}

/** A count with its noun: "1 px", "2 files". */
export function count(n: number, one: string, many = `${one}s`): string {
  return `${n} ${n === 1 ? one : many}`
}

/** Whole pixels that make up for `pct` percent of `edgePx`, rounded up (a hair of float error apart). */
export function pixels(pct: number, edgePx: number): string {
  return `${Math.ceil((pct / 100) * edgePx - 1e-6)} px`
}

/** The space at which no line may break. */
export const NO_BREAK = '\u00a0'

/** A text whose lines break nowhere between a number and its unit or noun, nor within a size: "1200 x 1500 px". */
export function glued(text: string): string {
  return text.replace(/(?<=\d) (?=[\p{L}%])|(?<=\d x) (?=\d)/gu, NO_BREAK)
}

/** Parts of a sentence: "a", "a and b", "a, b and c". */
export function listed(parts: readonly string[], word: 'and' | 'or' = 'and'): string {
  const last = parts.at(-1) ?? ''
  return parts.length < 2 ? last : `${parts.slice(0, -1).join(', ')} ${word} ${last}`
}
