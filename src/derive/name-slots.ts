/** Values that a roster has in its columns, by field: `family`, `given`, `staff-id`. Empty without a roster. */
export type KnownNames = ReadonlyMap<string, ReadonlySet<string>>

type Constraint = { digits: number | { min: number; max: number } } | Record<string, never>

/** Gives the changing parts of names their fields, one after the other. */
export class Slots {
  readonly fields: Record<string, Constraint> = {}
  orderIsAGuess = false
  readonly #known: KnownNames
  readonly #deliverables: readonly (string | null)[] | null

  /** @param deliverables of each name, when a part of the name may tell it */
  constructor(known: KnownNames, deliverables: readonly (string | null)[] | null) {
    this.#known = known
    this.#deliverables = deliverables
  }

  /** The piece of the pattern for one part's values: a fixed text or a field in braces. */
  piece(values: readonly string[]): string {
    const [first = ''] = values
    if (values.length > 1 && values.every((value) => value === first)) return braced(first)
    if (this.#tellsDeliverable(values)) return this.#add('deliverable', {})
    const column = this.#roster(values)
    const field = column ?? this.#next(values.some((value) => /[0-9]/.test(value)))
    // A roster tells what is right; names may have slips.
    return this.#add(field, digitsOf([...((column && this.#known.get(column)) || values)]))
  }

  /** Constraints as they stand under naming.fields: only fields that need one, and those of our own making. */
  declared(): Record<string, Constraint> {
    const entries = Object.entries(this.fields).filter(
      ([field, constraint]) => 'digits' in constraint || field.startsWith('part-'),
    )
    return Object.fromEntries(entries)
  }

  #add(field: string, constraint: Constraint): string {
    this.fields[field] = constraint
    return `{${field}}`
  }

  #tellsDeliverable(values: readonly string[]): boolean {
    const wanted = this.#deliverables
    if (!wanted || Object.hasOwn(this.fields, 'deliverable')) return false
    return areDeliverables(values, wanted)
  }

  /** The column of the roster in which most values are found. */
  #roster(values: readonly string[]): string | null {
    const shares = [...this.#known]
      .filter(([field]) => !Object.hasOwn(this.fields, field))
      .map(([field, column]) => ({
        field,
        share: values.filter((value) => column.has(value.toLowerCase())).length / values.length,
      }))
      .sort((a, b) => b.share - a.share)
    return (shares[0]?.share ?? 0) > 0.5 ? (shares[0]?.field ?? null) : null
  }

  #next(numbered: boolean): string {
    const free = (field: string) => !Object.hasOwn(this.fields, field)
    if (numbered && free('staff-id')) return 'staff-id'
    if (!numbered && free('family')) return 'family'
    if (!numbered && free('given')) {
      this.orderIsAGuess = !this.#known.has('family')
      return 'given'
    }
    return `part-${Object.keys(this.fields).length + 1}`
  }
}

/** Whether parts of paths are the deliverables. Null is a file of an odd size, which tells nothing either way. */
export function areDeliverables(
  parts: readonly (string | null)[],
  deliverables: readonly (string | null)[],
): boolean {
  const several = new Set(deliverables.filter((name) => name !== null)).size > 1
  return several && parts.every((part, i) => deliverables[i] === null || part === deliverables[i])
}

/** Braces are what fields stand in; a name that holds them can't be written as a pattern. */
function braced(text: string): string {
  return text.replace(/[{}]/g, '')
}

/** How many digits values have; no constraint when not all are made of digits. */
function digitsOf(values: readonly string[]): Constraint {
  if (!values.every((value) => /^[0-9]+$/.test(value))) return {}
  const lengths = values.map((value) => value.length)
  const min = Math.min(...lengths)
  const max = Math.max(...lengths)
  return { digits: min === max ? min : { min, max } }
}
