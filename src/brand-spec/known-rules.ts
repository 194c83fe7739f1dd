import type { AnyRule } from '../rules/contract/delivery-rule.ts'
import type { JsonSchema } from './json-schema.ts'
import { specSchema } from './schema.ts'

/** What a spec may set: the schema of specs with some rules, and these by their names. */
interface KnownRules {
  readonly schema: JsonSchema
  readonly byId: ReadonlyMap<string, AnyRule>
}

const known = new WeakMap<readonly AnyRule[], KnownRules>()

/** Made once for each list of rules. */
export function knownRules(rules: readonly AnyRule[]): KnownRules {
  const made = known.get(rules) ?? {
    schema: specSchema(rules),
    byId: new Map(rules.map((rule) => [rule.id, rule])),
  }
  known.set(rules, made)
  return made
}
