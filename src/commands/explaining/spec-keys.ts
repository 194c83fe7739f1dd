import { type OptionsText, optionsText } from '../../brand-spec/options.ts'
import { KEY_EXAMPLES } from '../../brand-spec/place.ts'
import { specSchema } from '../../brand-spec/schema.ts'
import { ALL_RULES } from '../../rules/delivery-index.ts'

/** A key at the top of a spec that is no rule. */
export interface SpecKey extends OptionsText {
  readonly name: string
  /** A line of YAML. */
  readonly example: string
}

/** The keys of a spec that are no rules, in their order. */
export function specKeys(): SpecKey[] {
  const rules = new Set(ALL_RULES.map(({ id }) => id))
  const { properties = {} } = specSchema(ALL_RULES)
  return Object.entries(properties)
    .filter(([name]) => !rules.has(name))
    .map(([name, options]) => ({ name, ...optionsText({ options }), example: KEY_EXAMPLES[name] ?? '' }))
}
