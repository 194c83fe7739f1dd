import type { SourceText } from '../files/source-text.ts'
import { isDay } from '../text/day.ts'
import { didYouMean } from '../text/nearest.ts'
import type { PlacedProblem } from '../text/placed-problem.ts'
import { quote } from '../text/quote.ts'
import { hasWords } from '../text/words.ts'
import { readYaml, type YamlSource } from '../yaml/yaml-source.ts'
import type { Waiver, Whom } from './waiver.ts'

const KEYS = ['rule', 'file', 'person', 'reason', 'approved-by', 'until']

/**
 * Reads waivers: a YAML list of mappings with rule, file or person (one, or a list), reason, approved-by and until.
 * Every problem is told at once, by line.
 * @param rules ids of all rules
 */
export function readWaivers(
  { text }: SourceText,
  rules: readonly string[],
): { waivers: Waiver[] } | { problems: PlacedProblem[] } {
  const { source, problems } = readYaml(text)
  if (!source) return { problems }
  const { data } = source
  if (data === null) return { waivers: [] }
  if (!Array.isArray(data)) {
    const message =
      'The waivers file should be a list: begin each exception with "- rule: " and the name of the rule, and put its other lines below.'
    return { problems: [source.problem([], 'value', message)] }
  }
  const entries: unknown[] = data
  const read = entries.map((_, index) => new Entry(source, String(index)))
  const waivers = read.map((entry) => entry.waiver(rules))
  const all = [...problems, ...read.flatMap((entry) => entry.problems)]
  return all.length > 0 ? { problems: all } : { waivers }
}

/** One entry as it is read: its values and what is wrong with them. */
class Entry {
  readonly problems: PlacedProblem[] = []
  readonly #source: YamlSource
  readonly #index: string

  constructor(source: YamlSource, index: string) {
    this.#source = source
    this.#index = index
  }

  waiver(rules: readonly string[]): Waiver {
    const whole = this.#source.valueAt([this.#index])
    const keys = typeof whole === 'object' && whole !== null ? Object.keys(whole) : []
    if (keys.length === 0 || Array.isArray(whole))
      this.#say([], 'This is not an exception; write it as "- rule: headroom" with its other lines below.')
    for (const key of keys.filter((one) => !KEYS.includes(one)))
      this.#say(
        [key],
        `An exception has no ${quote(key)}${didYouMean(key, KEYS)} It takes ${KEYS.join(', ')}.`,
      )
    const files = this.#listed('file', (path) => this.#text(path, ''))
    const people = this.#listed('person', (path) => this.#person(path))
    if (keys.length > 0 && (files === null) === (people === null))
      this.#say(
        [],
        'An exception names either files or people; add "file: " or "person: ", or remove one of them.',
      )
    return {
      line: this.#source.problem([this.#index], 'value', '').line,
      rule: keys.length > 0 ? this.#rule(rules) : '',
      files: files?.map((file) => file.normalize('NFC')) ?? [],
      people: people ?? [],
      reason: keys.length > 0 ? this.#words('reason', 'why the finding is accepted') : '',
      approvedBy: keys.length > 0 ? this.#words('approved-by', 'who approved it') : '',
      until: keys.length > 0 ? this.#until() : '',
    }
  }

  #rule(rules: readonly string[]): string {
    const rule = this.#text(['rule'], 'the name of a rule')
    if (rule === 'intact')
      this.#say(['rule'], 'No exception covers intact: a damaged file must be delivered again.')
    else if (rule !== '' && !rules.includes(rule))
      this.#say(
        ['rule'],
        `There is no rule ${quote(rule)}${didYouMean(rule, rules)} See the list with: portrait-gate explain`,
      )
    return rule
  }

  /** What stands under a key, one or a list; null when there is no such key. */
  #listed<T>(key: string, read: (path: readonly string[]) => T): T[] | null {
    const value = this.#source.valueAt([this.#index, key])
    if (value === undefined) return null
    if (!Array.isArray(value)) return [read([key])]
    if (value.length === 0) this.#say([key], `${key} is an empty list; write one or more there.`)
    return value.map((_, index) => read([key, String(index)]))
  }

  #person(path: readonly string[]): Whom {
    const value = this.#source.valueAt([this.#index, ...path])
    if (typeof value !== 'object' || value === null || Array.isArray(value))
      return this.#text(path, '').normalize('NFC')
    const fields = Object.entries(value)
    const texts = fields.filter(
      (entry): entry is [string, string] => typeof entry[1] === 'string' && entry[1] !== '',
    )
    if (fields.length === 0 || texts.length < fields.length)
      this.#say(
        path,
        'person should be a text, or fields with a text each, such as { staff-id: "00418" }; put numbers in quotes.',
      )
    return Object.fromEntries(texts.map(([field, text]) => [field, text.normalize('NFC')]))
  }

  #until(): string {
    const until = this.#text(['until'], 'the last day on which it is valid')
    if (until !== '' && !isDay(until))
      this.#say(['until'], `until is ${quote(until)}; it should be a day, written as 2027-03-31.`)
    return until
  }

  #words(key: string, meaning: string): string {
    const text = this.#text([key], meaning)
    if (text !== '' && !hasWords(text)) this.#say([key], `${key} has no words; write ${meaning}.`)
    return text
  }

  #text(path: readonly string[], meaning: string): string {
    const value = this.#source.valueAt([this.#index, ...path])
    if (typeof value === 'string' && value.trim() !== '' && value.length <= 1000) return value.trim()
    const written = this.#source.written([this.#index, ...path])
    const [key = ''] = path
    if (typeof value === 'number' || typeof value === 'boolean')
      this.#say(
        path,
        `${key} is ${written ?? value} without quotes, which YAML does not read as text; put it in quotes.`,
      )
    else if (typeof value === 'string' && value.length > 1000)
      this.#say(path, `${key} is longer than 1000 characters; shorten it.`)
    else
      this.#say(
        path,
        `${key} is ${value === undefined ? 'missing' : 'empty or not a text'}; ${value === undefined ? 'add' : 'write'} ${meaning === '' ? 'it' : meaning}.`,
      )
    return ''
  }

  /** @param place keys within the entry; none for the entry as a whole */
  #say(place: readonly string[], message: string): void {
    const path = [this.#index, ...place]
    const there = this.#source.valueAt(path) !== undefined
    this.problems.push(this.#source.problem(there ? path : [this.#index], 'value', message))
  }
}
