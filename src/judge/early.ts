import type { Measurements } from '../measure/schema/measurements.ts'
import type { NameReading } from '../naming/name-reading.ts'
import { type Attribution, findPeople, type People } from '../people/people.ts'
import type { Outcome } from '../rules/contract/outcome.ts'
import type { Subject } from '../rules/contract/rule.ts'
import { RULES } from '../rules/index.ts'
import { judgeFile } from './judge.ts'
import { SharedOutcomes } from './shared-outcomes.ts'
import type { Standard } from './standard.ts'

/** What is known of a file before it is measured. */
export type NamedFile = Attribution &
  Pick<Subject, 'name' | 'personFields'> & { readonly isTogether: boolean }

/** What the names of files tell together. */
export interface NamedFiles {
  readonly people: People
  /** In the order of the names. */
  readonly files: readonly NamedFile[]
}

/** @param isTogether whether all files of the delivery are judged together */
export function namedFiles(
  names: readonly NameReading[],
  { spec, roster }: Standard,
  isTogether: boolean,
): NamedFiles {
  const people = findPeople(names, spec.naming, roster)
  const onRoster = new Map(
    people.people.flatMap(({ label, fields, entry }) => (entry ? [[label, fields]] : [])),
  )
  const files = names.map((name, index): NamedFile => {
    const attribution = people.attributions[index]
    if (!attribution) throw new Error(`Nobody looked whose portrait ${name.path} is.`)
    const { person, resemblance } = attribution
    return { name, person, resemblance, isTogether, personFields: onRoster.get(person ?? '') }
  })
  return { people, files }
}

/**
 * Judges the files of a delivery one by one while others are measured. What only all of them tell of one, the name that it is to get, is not known
 * by then: a file that is to get one has to be judged again, as has one that was not reached.
 */
export class EarlyOutcomes {
  readonly named: NamedFiles
  readonly #standard: Standard
  readonly #byPath: ReadonlyMap<string, NamedFile>
  readonly #outcomes = new Map<string, readonly Outcome[]>()
  readonly #shared: SharedOutcomes
  #waiting: Measurements[] = []

  /**
   * @param names of all files that are to be judged
   * @param detailed whether what passes is told in words
   */
  constructor(names: readonly NameReading[], standard: Standard, isTogether: boolean, detailed = true) {
    this.#shared = new SharedOutcomes(detailed)
    this.named = namedFiles(names, standard, isTogether)
    this.#standard = standard
    this.#byPath = new Map(this.named.files.map((file) => [file.name.path, file]))
  }

  /** Judges a file, unless nobody named it. */
  judge(measured: Measurements): void {
    const file = this.#byPath.get(measured.file)
    if (!file) return
    const outcomes = judgeFile({ ...file, measured }, this.#standard.spec, RULES)
    this.#outcomes.set(measured.file, this.#shared.share(outcomes))
  }

  /** Has a file judged when this thread has nothing else to do: a worker that waits for its next files comes first. */
  take(measured: Measurements): void {
    this.#waiting.push(measured)
    if (this.#waiting.length === 1) this.#judgeSoon()
  }

  /** What was judged so far, by the paths of files that keep their names. No other is judged afterwards. */
  finish(): ReadonlyMap<string, readonly Outcome[]> {
    this.#waiting = []
    return this.#outcomes
  }

  #judgeSoon(): void {
    // Not unref()ed: the thread would then sleep until a worker wakes it, and judge one file each time.
    setImmediate(() => this.#judgeNext())
  }

  #judgeNext(): void {
    const measured = this.#waiting.shift()
    if (measured) this.judge(measured)
    if (this.#waiting.length > 0) this.#judgeSoon()
  }
}
