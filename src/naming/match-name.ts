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
  const places = pieces.map((piece) => ('text' in piece ? placesOf(name, piece.text) : []))
  const tooMany = places.find((found) => found.length > MOST_PLACES)?.[MOST_PLACES]
  if (tooMany !== undefined) return { at: tooMany, wanted: '', read: [] }
  const isClear = places.every((found) => found.length < 2)
  const splits = isClear
    ? onlySplit(name, pieces, places)
    : new Splitter(name, pieces, places, check).splits()
  return splits.length > 0 ? { splits } : furthest(name, pieces)
}

/** The split of a name in which no fixed text stands twice; none when its pieces don't read it. */
function onlySplit(name: string, pieces: readonly NamePiece[], places: Places): ReadPiece[][] {
  const read: ReadPiece[] = []
  let start = 0
  for (const [index, piece] of pieces.entries()) {
    const isLast = index === pieces.length - 1
    const next = isLast ? name.length : places[index + 1]?.[0]
    const end = 'text' in piece ? start + piece.text.length : next
    if (end === undefined || end <= start || ('text' in piece && places[index]?.[0] !== start)) return []
    read.push({ ...piece, value: name.slice(start, end) })
    start = end
  }
  return start === name.length ? [read] : []
}

/** Where each piece that is a fixed text stands in the name, in order; none for fields. */
type Places = readonly (readonly number[])[]

class Splitter {
  readonly #name: string
  readonly #pieces: readonly NamePiece[]
  readonly #checks: readonly (FieldCheck | null)[]
  readonly #places: Places
  readonly #faults = new Map<number, number>()

  constructor(
    name: string,
    pieces: readonly NamePiece[],
    places: Places,
    check: (field: string) => FieldCheck,
  ) {
    this.#name = name
    this.#pieces = pieces
    this.#checks = pieces.map((piece) => ('field' in piece ? check(piece.field) : null))
    this.#places = places
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
  #ends(index: number, start: number): number[] {
    const piece = this.#pieces[index]
    const next = this.#pieces[index + 1]
    if (!piece) return []
    if ('text' in piece) return this.#places[index]?.includes(start) ? [start + piece.text.length] : []
    const ends = next && 'text' in next ? (this.#places[index + 1] ?? []) : [this.#name.length]
    return ends.filter((end) => end > start).reverse()
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

// Small letters of such a name stand where the letters stand.
// biome-ignore lint/suspicious/noControlCharactersInRegex: they are ASCII, too.
const ASCII = /^[\x00-\x7f]*$/

function placesOf(name: string, text: string): number[] {
  const places: number[] = []
  const small = text.toLowerCase()
  const smallName = ASCII.test(name) ? name.toLowerCase() : null
  for (let at = 0; at <= name.length; at++)
    if (smallName?.startsWith(small, at) ?? sameLetters(name, at, text, small)) places.push(at)
  return places
}

function sameLetters(name: string, start: number, text: string, small = text.toLowerCase()): boolean {
  if (name.startsWith(text, start)) return true
  return name.slice(start, start + text.length).toLowerCase() === small
}
