import { specSchema } from '../../brand-spec/schema.ts'
import { shapeOf } from '../../brand-spec/words.ts'
import { ALL_RULES } from '../../rules/delivery-index.ts'

/** A key at the top of a spec that is no rule. */
export interface SpecKey {
  readonly name: string
  /** What stands beside it: "the path of another spec". */
  readonly takes: string
  readonly about: string
}

/** The keys of a spec that are no rules, in their order. */
export function specKeys(): SpecKey[] {
  const rules = new Set(ALL_RULES.map(({ id }) => id))
  const { properties = {} } = specSchema(ALL_RULES)
  return Object.entries(properties)
    .filter(([name]) => !rules.has(name))
    .map(([name, schema]) => ({ name, takes: shapeOf(schema), about: schema.description ?? '' }))
}
