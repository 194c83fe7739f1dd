import type { NamePiece } from './naming.ts'
import type { FieldCheck } from './naming-field.ts'

/** A field's value in a name, or a fixed text where only capital and small letters differ. */
export type ReadPiece =
  | { readonly field: string; readonly value: string }
  | { readonly text: string; readonly value: string }

/** Splits of a name along its pieces, all equally good, the likeliest first; or how far the reading came. */
export type Match =
  | { readonly splits: readonly (readonly ReadPiece[])[] }
  | { readonly at: number; readonly wanted: string; readonly read: readonly ReadPiece[] }

// Enough to look a sitter up by each reading; a name of nothing but separators has thousands.
const MOST_SPLITS = 8
// A separator that stands in a name more often than this separates nothing: at most 12 fields are between them.
const MOST_PLACES = 64

/**
 * Reads one folder's or file's name (NFC) along the pieces of its pattern. Of all splits those with the fewest faults
 * count: fields that miss their check, fixed texts in other letter case. Among equals an earlier field takes the longer
 * text, so that "Smith-Jones-Anna" is read {family}-{given} as Smith-Jones and Anna first.
 *
 * Checks at most 2,080 values of each field: a name in which a fixed text stands more than 64 times is not split.
 */
export function matchName(
  name: string,
  pieces: readonly NamePiece[],
  check: (field: string) => FieldCheck,
): Match {
  const splitter = new Splitter(name, pieces, check)
  const { tooMany } = splitter
  if (tooMany !== null) return { at: tooMany, wanted: '', read: [] }
  const splits = splitter.splits()
  return splits.length > 0 ? { splits } : furthest(name, pieces)
}

class Splitter {
  readonly #name: string
  readonly #pieces: readonly NamePiece[]
  readonly #checks: readonly (FieldCheck | null)[]
  /** Where each piece that is a fixed text stands in the name, in order; none for fields. */
  readonly #places: readonly (readonly number[])[]
  readonly #faults = new Map<number, number>()

  constructor(name: string, pieces: readonly NamePiece[], check: (field: string) => FieldCheck) {
    this.#name = name
    this.#pieces = pieces
    this.#checks = pieces.map((piece) => ('field' in piece ? check(piece.field) : null))
    this.#places = pieces.map((piece) => ('text' in piece ? placesOf(name, piece.text) : []))
  }

  /** Where a fixed text stands once too often; null when none does. */
  get tooMany(): number | null {
    return this.#places.find((places) => places.length > MOST_PLACES)?.[MOST_PLACES] ?? null
  }

  splits(): ReadPiece[][] {
    const found: ReadPiece[][] = []
    if (this.#fewestFaults(0, 0) < Infinity) this.#collect(0, 0, [], found)
    return found
  }

  /** Fewest faults with which the pieces from `index` on read the name from `start` to its end; Infinity when they don't. */
  #fewestFaults(index: number, start: number): number {
    if (index === this.#pieces.length) return start === this.#name.length ? 0 : Infinity
    const key = index * (this.#name.length + 1) + start
    const known = this.#faults.get(key)
    if (known !== undefined) return known
    let fewest = Infinity
    for (const end of this.#ends(index, start)) {
      const rest = this.#fewestFaults(index + 1, end)
      if (rest < fewest) fewest = Math.min(fewest, rest + this.#fault(index, start, end))
    }
    this.#faults.set(key, fewest)
    return fewest
  }

  #collect(index: number, start: number, read: readonly ReadPiece[], found: ReadPiece[][]): void {
    if (found.length === MOST_SPLITS) return
    const piece = this.#pieces[index]
    if (!piece) {
      found.push([...read])
      return
    }
    const fewest = this.#fewestFaults(index, start)
    for (const end of this.#ends(index, start)) {
      if (this.#fault(index, start, end) + this.#fewestFaults(index + 1, end) === fewest)
        this.#collect(index + 1, end, [...read, { ...piece, value: this.#name.slice(start, end) }], found)
    }
  }

  /** Where a piece that starts at `start` may end, the longest first. */
  *#ends(index: number, start: number): Generator<number> {
    const piece = this.#pieces[index]
    const next = this.#pieces[index + 1]
    if (!piece) return
    if ('text' in piece) {
      if (this.#places[index]?.includes(start)) yield start + piece.text.length
      return
    }
    const ends = next && 'text' in next ? (this.#places[index + 1] ?? []) : [this.#name.length]
    for (const end of ends.toReversed()) if (end > start) yield end
  }

  #fault(index: number, start: number, end: number): number {
    const piece = this.#pieces[index]
    const value = this.#name.slice(start, end)
    if (piece && 'text' in piece) return piece.text === value ? 0 : 1
    return this.#checks[index]?.(value) === null ? 0 : 1
  }
}

/** How far a name that does not fit can be read: each field takes the least text that lets the next text follow. */
function furthest(name: string, pieces: readonly NamePiece[]): Match {
  const read: ReadPiece[] = []
  let at = 0
  for (const [index, piece] of pieces.entries()) {
    if ('text' in piece) {
      if (!sameLetters(name, at, piece.text)) return { at, wanted: piece.text, read }
      read.push({ text: piece.text, value: name.slice(at, at + piece.text.length) })
      at += piece.text.length
      continue
    }
    const next = pieces[index + 1]
    if (at === name.length) return { at, wanted: `{${piece.field}}`, read }
    if (!next || 'field' in next) {
      read.push({ field: piece.field, value: name.slice(at) })
      at = name.length
      continue
    }
    const end = endBefore(name, at, next.text, index + 2 === pieces.length)
    if (end === null) return { at: likelyEnd(name, at), wanted: next.text, read }
    read.push({ field: piece.field, value: name.slice(at, end) })
    at = end
  }
  return { at, wanted: '', read }
}

function endBefore(name: string, start: number, text: string, last: boolean): number | null {
  for (let end = last ? name.length - text.length : start + 1; end <= name.length; end++) {
    if (end > start && sameLetters(name, end, text)) return end
  }
  return null
}

/** Where a field probably ends whose separator is missing: before the next character that is no letter or digit. */
function likelyEnd(name: string, start: number): number {
  const rest = name.slice(start + 1).search(/[^\p{L}\p{M}\p{N}]/u)
  return rest < 0 ? name.length : start + 1 + rest
}

function placesOf(name: string, text: string): number[] {
  const places: number[] = []
  const small = text.toLowerCase()
  for (let at = 0; at <= name.length; at++) if (sameLetters(name, at, text, small)) places.push(at)
  return places
}

function sameLetters(name: string, start: number, text: string, small = text.toLowerCase()): boolean {
  if (name.startsWith(text, start)) return true
  return name.slice(start, start + text.length).toLowerCase() === small
}
