import type { NameReading } from '../../naming/name-reading.ts'
import { transliterated } from '../../naming/transliterate.ts'

/** A text that the spec asks for, its naming fields such as `{given}` filled in from the file's name. */
export interface WantedText {
  readonly text: string
  /** Whether it holds fields of a file name, in which names are often written in small letters and without accents. */
  readonly fromName: boolean
}

/** What a file's name says of its person. */
export type NameFields = Pick<NameReading, 'fields' | 'otherReadings'>

const FIELD = /\{([^{}]*)\}/g

/**
 * The text for each way in which the file's name can be read, the likeliest first; the name of the field when the file's
 * name does not tell it.
 */
export function wantedTexts(
  template: string,
  { fields, otherReadings = [] }: NameFields,
): readonly WantedText[] | { readonly missing: string; readonly template: string } {
  if (!template.includes('{'))
    return [fields, ...otherReadings].map(() => ({ text: template, fromName: false }))
  const names = [...template.matchAll(FIELD)].map(([, name = '']) => name)
  const missing = names.find((name) => fields[name] === undefined)
  if (missing !== undefined) return { missing, template }
  return [fields, ...otherReadings].map((reading) => ({
    text: template.replace(FIELD, (_, name: string) => reading[name] ?? ''),
    fromName: names.length > 0,
  }))
}

/** What is wrong with the braces of a template, as a sentence; null when nothing is. */
export function templateProblem(template: string): string | null {
  const rest = template.replace(FIELD, '')
  if (/[{}]/.test(rest))
    return `A brace in "${template}" has no partner; write naming fields such as {family} in pairs of braces.`
  return /\{\s*\}/.test(template)
    ? `The braces in "${template}" are empty; put the name of a naming field in them, such as {family}.`
    : null
}

/**
 * Whether a value is the text, or holds it. Spacing and Unicode form make no difference; where naming fields are part of
 * the text, neither do letter case, accents, letters that passports write with two, hyphens and underscores.
 */
export function meets(value: string, { text, fromName }: WantedText, whole: boolean): boolean {
  if (fromName) return holdsWords(wordsOf(value), wordsOf(text), whole)
  if (value === text) return true
  const plain = (one: string) => one.normalize('NFC').replace(/\s+/g, ' ').trim()
  return whole ? plain(value) === plain(text) : plain(value).includes(plain(text))
}

function wordsOf(text: string): string[] {
  return text
    .split(/[\s\-_]+/u)
    .map((word) => word.replace(/^\p{P}+|\p{P}+$/gu, ''))
    .filter((word) => word !== '')
}

// Letters that differ in case or accents only are one letter to it. One language for all, so that the verdict is the
// same on every machine.
const { compare } = new Intl.Collator('en', { sensitivity: 'base' })

function holdsWords(words: readonly string[], wanted: readonly string[], whole: boolean): boolean {
  if (whole && words.length !== wanted.length) return false
  return words.some((_, at) => wanted.every((word, n) => areOne(words[at + n] ?? '', word)))
}

/** In names of files, ö may also be written oe. */
function areOne(a: string, b: string): boolean {
  if (compare(a, b) === 0) return true
  return compare(transliterated(a, 'passport'), transliterated(b, 'passport')) === 0
}
