import type { Person } from '../people/people.ts'
import type { Outcome } from '../rules/contract/outcome.ts'
import type { Grant, Waiver, WaiverReport } from './waiver.ts'

/** What an outcome is about. */
export interface About {
  readonly files: readonly string[]
  /** Labels. */
  readonly people: readonly string[]
  /** Whether one of the files could not be read, which nothing waives. */
  readonly unreadable: boolean
}

/** Holds a delivery's waivers, grants them to outcomes, and tells afterwards what became of each. */
export class Waivers {
  readonly #waivers: readonly Waiver[]
  readonly #today: string
  readonly #people: ReadonlyMap<string, Person>
  readonly #states = new Map<Waiver, 'used' | 'refused'>()

  /** @param today as 2027-03-31; a waiver holds on its last day still */
  constructor(waivers: readonly Waiver[], today: string, people: readonly Person[]) {
    this.#waivers = waivers
    this.#today = today
    this.#people = new Map(people.map((person) => [person.label, person]))
  }

  /** The outcome, with the waiver that covers it if there is one and it fails or needs a look. */
  grant<T extends Outcome>(outcome: T, about: About): T {
    if (outcome.verdict !== 'fail' && outcome.verdict !== 'unsure') return outcome
    const waiver = this.#waivers.find(
      (one) => one.rule === outcome.rule && !this.#isExpired(one) && this.#covers(one, about),
    )
    if (!waiver) return outcome
    if (about.unreadable) {
      if (!this.#states.has(waiver)) this.#states.set(waiver, 'refused')
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
      const { line, rule, file, person, reason, approvedBy, until } = waiver
      const state = this.#isExpired(waiver) ? 'expired' : (this.#states.get(waiver) ?? 'unused')
      const whom = typeof person === 'object' && person !== null ? { ...person } : person
      return { line, rule, file, person: whom, reason, approvedBy, until, state }
    })
  }

  #isExpired({ until }: Waiver): boolean {
    return until < this.#today
  }

  #covers({ file, person }: Waiver, about: About): boolean {
    if (file !== null) return about.files.some((one) => one.normalize('NFC') === file)
    return about.people.some((label) => {
      if (typeof person === 'string') return label === person
      const fields = this.#people.get(label)?.fields ?? {}
      return Object.entries(person ?? {}).every(([field, value]) => fields[field] === value)
    })
  }
}
