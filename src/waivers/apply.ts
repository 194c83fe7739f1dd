import type { Person } from '../people/person.ts'
import type { Grant } from '../rules/contract/grant.ts'
import type { Outcome } from '../rules/contract/outcome.ts'
import type { Waiver, WaiverReport, Whom } from './waiver.ts'

/** All that an outcome is about. */
export interface About {
  readonly files: readonly string[]
  /** Labels, also of those whose files it names; null for a file whose name tells nobody. */
  readonly people: readonly (string | null)[]
  /** Whether one of the files could not be read, which nothing waives. */
  readonly unreadable: boolean
}

/** Holds a delivery's waivers, grants them to outcomes, and tells afterwards what became of each. */
export class Waivers {
  readonly #waivers: readonly Waiver[]
  readonly #today: string
  readonly #people: ReadonlyMap<string, Person>
  readonly #files: ReadonlySet<string>
  readonly #states = new Map<Waiver, 'used' | 'partial' | 'refused'>()

  /**
   * @param today as 2027-03-31; a waiver holds on its last day still
   * @param files of the delivery
   */
  constructor(
    waivers: readonly Waiver[],
    today: string,
    people: readonly Person[],
    files: readonly string[],
  ) {
    this.#waivers = waivers
    this.#today = today
    this.#files = new Set(files)
    this.#people = new Map(people.map((person) => [person.label, person]))
  }

  /**
   * The outcome, with the waiver that covers it if there is one and it fails or is unsure. A waiver covers what it
   * names, so of several files or people it must name all: what was accepted of two is not accepted of a third.
   */
  grant<T extends Outcome>(outcome: T, about: About): T {
    if (outcome.verdict !== 'fail' && outcome.verdict !== 'unsure') return outcome
    const named = this.#waivers.flatMap((waiver) => {
      if (waiver.rule !== outcome.rule || this.#isExpired(waiver)) return []
      const covered = this.#covered(waiver, about)
      return covered === 'none' ? [] : [{ waiver, covered }]
    })
    const waiver = named.find(({ covered }) => covered === 'all')?.waiver
    if (!waiver) {
      for (const one of named) if (!this.#states.has(one.waiver)) this.#states.set(one.waiver, 'partial')
      return outcome
    }
    if (about.unreadable) {
      if (this.#states.get(waiver) !== 'used') this.#states.set(waiver, 'refused')
      return outcome
    }
    this.#states.set(waiver, 'used')
    const { reason, approvedBy, until } = waiver
    const grant: Grant = { reason, approvedBy, until }
    return { ...outcome, waiver: grant }
  }

  /** All waivers in the order in which they are written, once every outcome has been through `grant`. */
  report(): WaiverReport[] {
    return this.#waivers.map((waiver) => {
      const { line, rule, files, people, reason, approvedBy, until } = waiver
      const state = this.#isExpired(waiver)
        ? 'expired'
        : (this.#states.get(waiver) ?? (this.#isHere(waiver) ? 'unused' : 'absent'))
      return { line, rule, files: [...files], people: [...people], reason, approvedBy, until, state }
    })
  }

  /** Whether the delivery has a file or a person that a waiver names. */
  #isHere({ files, people }: Waiver): boolean {
    return (
      [...this.#files].some((file) => files.includes(this.#nameOf(file))) ||
      [...this.#people.keys()].some((label) => people.some((whom) => this.#isMeant(whom, label)))
    )
  }

  #isExpired({ until }: Waiver): boolean {
    return until < this.#today
  }

  #covered({ files, people, isExact = false }: Waiver, about: About): 'all' | 'some' | 'none' {
    const named = files.length > 0 ? [files.length, about.files.length] : [people.length, about.people.length]
    if (isExact && named[0] !== named[1]) return 'none'
    const covered =
      files.length > 0
        ? about.files.map((file) => files.includes(this.#nameOf(file)))
        : about.people.map((label) => label !== null && people.some((whom) => this.#isMeant(whom, label)))
    if (!covered.includes(true)) return 'none'
    return covered.includes(false) ? 'some' : 'all'
  }

  /** As waivers name it, in NFC; where another file has that name, one in another form is named by none. */
  #nameOf(file: string): string {
    const name = file.normalize('NFC')
    return this.#files.has(name) ? file : name
  }

  #isMeant(whom: Whom, label: string): boolean {
    if (typeof whom === 'string') return label === whom
    const fields = this.#people.get(label)?.fields ?? {}
    return Object.entries(whom).every(([field, value]) => fields[field] === value)
  }
}
