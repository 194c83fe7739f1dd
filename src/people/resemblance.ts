import { nearest } from '../text/nearest.ts'
import type { Person } from './person.ts'

type Difference = 'case' | 'accents' | 'suffix' | 'spelling'
type Fields = Readonly<Record<string, string>>

/** How the name of a file differs from that of the person on the roster whom it most likely means. */
export interface Resemblance {
  /** The fields that differ, with what the file's name has there. */
  readonly fields: Readonly<Record<string, string>>
  /** In capital and small letters only, in accents too, in something put after it, or in a few letters. */
  readonly by: Difference
  /** Where the person stands whom it means: on the roster, or in the names of other files. */
  readonly among: 'roster' | 'names'
}

// People that one name is compared with, in all its readings. A value that more of them share tells nobody.
const MOST_COMPARED = 1000
const ORDER: readonly Difference[] = ['case', 'accents', 'suffix', 'spelling']

/**
 * Finds whom of the roster a name most likely means. Someone is likely whose fields are all equal or near, at least one
 * of them equal but for case and accents; or of whose three or more fields only one differs. Two who are equally likely
 * are none: the name could be either's. (Common practice, no source.)
 */
export class Likeness {
  readonly #people: readonly Person[]
  readonly #key: readonly string[]
  readonly #byValue = new Map<string, Person[]>()

  constructor(people: readonly Person[], key: readonly string[]) {
    this.#people = people
    this.#key = key
    for (const person of people) {
      for (const field of key) {
        const value = indexOf(field, person.fields[field] ?? '')
        const others = this.#byValue.get(value)
        if (others) others.push(person)
        else this.#byValue.set(value, [person])
      }
    }
  }

  /** @param readings splits of one name, the likeliest first, each with all fields of the key */
  find(readings: readonly Fields[]): { person: string; resemblance: Resemblance } | null {
    let left = MOST_COMPARED
    for (const fields of readings) {
      const candidates = this.#candidates(fields).slice(0, left)
      const found = this.#best(fields, candidates)
      if (found) return found
      left -= candidates.length
    }
    return null
  }

  #best(fields: Fields, candidates: readonly Person[]): { person: string; resemblance: Resemblance } | null {
    const compared = candidates.flatMap((person) => {
      const comparison = compare(fields, person.fields, this.#key)
      return comparison ? [{ person: person.label, ...comparison }] : []
    })
    compared.sort((a, b) => a.misses - b.misses)
    const [best, second] = compared
    if (!best || best.misses === second?.misses) return null
    return { person: best.person, resemblance: { fields: best.differing, by: best.by, among: 'roster' } }
  }

  #candidates(fields: Fields): readonly Person[] {
    const alike = this.#key
      .map((field) => this.#byValue.get(indexOf(field, fields[field] ?? '')) ?? [])
      .filter((people) => people.length <= MOST_COMPARED)
      .sort((a, b) => a.length - b.length)
    const all = [...new Set(alike.flat())]
    if (all.length > 0) return all
    return this.#key.length === 1 && this.#people.length <= MOST_COMPARED ? this.#people : []
  }
}

/**
 * The one of several people whom somebody may be under another name: someone with a field that is equal but for case and
 * accents, or with most of their fields near. Null when it is nobody, or could be several. (Common practice, no source.)
 */
export function perhaps(stranger: Fields, people: readonly Person[], key: readonly string[]): Person | null {
  const scored = people.map((person) => {
    const kinds = key.map((field) => {
      const [value = '', wanted = ''] = [stranger[field], person.fields[field]]
      return value === wanted ? 'case' : difference(value, wanted)
    })
    const equal = kinds.filter((kind) => kind !== null && kind !== 'spelling').length
    const near = kinds.filter((kind) => kind === 'spelling').length
    return { person, score: equal > 0 || 2 * near > key.length ? 2 * equal + near : 0 }
  })
  const [best, second] = scored.filter(({ score }) => score > 0).toSorted((a, b) => b.score - a.score)
  return best && best.score !== second?.score ? best.person : null
}

interface Comparison {
  readonly differing: Readonly<Record<string, string>>
  readonly by: Difference
  /** 1 for a difference in case or accents, 10 for one in spelling, 100 for a field that is another altogether. */
  readonly misses: number
}

function compare(fields: Fields, wanted: Fields, key: readonly string[]): Comparison | null {
  const differing = key.filter((field) => fields[field] !== wanted[field])
  // Without comparing letters: two fields that are others altogether are someone else's.
  const unlike = differing.filter(
    (field) => isNumber(wanted[field] ?? '') && !isVersionOf(fields[field] ?? '', wanted[field] ?? ''),
  )
  if (unlike.length > 0 && (key.length < 3 || differing.length > 1)) return null
  const kinds = differing.map((field) => difference(fields[field] ?? '', wanted[field] ?? ''))
  const others = kinds.filter((kind) => kind === null).length
  const spellings = kinds.filter((kind) => kind === 'spelling').length
  if (others > 0 && (key.length < 3 || differing.length > 1)) return null
  if (key.length > 1 && spellings + others === key.length) return null
  const kind = others > 0 ? 'spelling' : ORDER.findLast((one) => kinds.includes(one))
  if (kind === undefined) return null
  return {
    differing: Object.fromEntries(differing.map((field) => [field, fields[field] ?? ''])),
    by: kind,
    misses: 100 * others + 10 * spellings + (kinds.length - others - spellings),
  }
}

/** How two values differ; null when they are not near. Numbers are not near each other: the next is someone else's. */
function difference(value: string, wanted: string): Difference | null {
  if (value.toLowerCase() === wanted.toLowerCase()) return 'case'
  if (plain(value) === plain(wanted)) return 'accents'
  if (isSuffixed(plain(value), plain(wanted))) return 'suffix'
  if (isNumber(wanted)) return null
  return nearest(plain(value), [plain(wanted)]) === null ? null : 'spelling'
}

// What people put after a name to say which version of the picture it is; no names among them.
const WORDS =
  'v?\\d+|final|new|edit|edited|ret|retouch|retouched|export|web|print|crop|cropped|small|large|low|high|lowres|hires|highres|lr|hr|bw|srgb|cmyk'
const VERSION = new RegExp(`^(?:[ _.-]+(?:${WORDS}))+$`)
const VERSION_END = new RegExp(`(?:[ _.-]+(?:${WORDS}))+$`, 'i')

/** A name without the versions at the ends of its fields. */
export interface Unversioned {
  readonly fields: Fields
  /** Those that it had, as they were. */
  readonly versioned: Fields
  /** Whether each of them was more than a number, by which people of one name are told apart too. */
  readonly isClear: boolean
}

/** Takes the versions off the ends of fields; null when no field has one. */
export function withoutVersions(fields: Fields, key: readonly string[]): Unversioned | null {
  const ends = key.flatMap((field) => {
    const value = fields[field] ?? ''
    const end = VERSION_END.exec(value)
    return end && end.index > 0 ? [{ field, value, base: value.slice(0, end.index), end: end[0] }] : []
  })
  if (ends.length === 0) return null
  return {
    fields: { ...fields, ...Object.fromEntries(ends.map(({ field, base }) => [field, base])) },
    versioned: Object.fromEntries(ends.map(({ field, value }) => [field, value])),
    isClear: ends.every(({ end }) => /[a-z]/i.test(end)),
  }
}

function isSuffixed(value: string, wanted: string): boolean {
  return wanted !== '' && value.startsWith(wanted) && VERSION.test(value.slice(wanted.length))
}

function isVersionOf(value: string, wanted: string): boolean {
  return plain(value) === wanted || isSuffixed(plain(value), wanted)
}

function isNumber(wanted: string): boolean {
  return /^\d+$/.test(wanted)
}

function indexOf(field: string, value: string): string {
  return `${field} ${plain(value)}`
}

/** Without case, accents (Unicode marks) and compatibility forms such as ligatures. */
function plain(text: string): string {
  return text.normalize('NFKD').replace(/\p{M}/gu, '').toLowerCase()
}
