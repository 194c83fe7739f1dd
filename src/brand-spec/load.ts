import { Ajv, type ErrorObject } from 'ajv'
import type { NamingPattern } from '../naming/naming.ts'
import type { AnyRule } from '../rules/contract/delivery-rule.ts'
import type { PlacedProblem } from '../text/placed-problem.ts'
import { readYaml } from '../yaml/yaml-source.ts'
import { impossibleSettings, type NamingSetting, readNaming, twinDeliverables } from './content.ts'
import { deepFreeze } from './freeze.ts'
import { Mismatches } from './mismatches.ts'
import { narrowSchema } from './narrow-schema.ts'
import { Place } from './place.ts'
import { soundness, tidied, withoutFollowUps } from './problems.ts'
import { Naming, specSchema } from './schema.ts'
import type { Settings, Spec } from './spec.ts'

/**
 * Reads a brand spec. All that is wrong with it is told at once, each cause once, by line.
 *
 * @param text YAML 1.2
 * @param file path of the spec as the user gave it, for messages
 * @param rules every rule that the spec may set
 */
export function loadSpec(
  text: string,
  file: string,
  rules: readonly AnyRule[],
): { spec: Spec } | { problems: PlacedProblem[] } {
  const { source, problems } = readYaml(text)
  if (!source) return { problems: tidied(problems) }
  const { schema, narrowly, wholly, isNaming, mismatches } = validatorOf(rules)
  const place = new Place([], { source, schema, rules: new Map(rules.map((rule) => [rule.id, rule])) })

  const { data } = source
  const isSpec = narrowly(data)
  const unfit = isSpec(data) ? [] : mismatches.of(wholly(data), place)
  const written = source.valueAt(['naming'])
  const naming = isNaming(written) ? readNaming(written, place) : { problems: [] }
  const all = [
    ...problems,
    ...withoutFollowUps(unfit).map((one) => source.problem(one.place.path, one.at, one.message)),
    ...impossibleSettings(place, soundness(unfit)),
    ...twinDeliverables(place),
    ...('problems' in naming ? naming.problems : []),
  ]
  if (all.length > 0) return { problems: tidied(all) }
  // Only a schema that no sentence has been written for leads here.
  if (!isSpec(data)) return { problems: [source.problem([], 'value', 'The spec does not fit its schema.')] }
  return { spec: specOf(data, file, 'pattern' in naming ? naming.pattern : null, rules) }
}

/** A spec that fits its schema, as it is written. */
interface WrittenSpec {
  readonly brand: string
  readonly version: number
  readonly naming?: NamingSetting
  readonly deliverables?: Readonly<Record<string, Settings | null>>
  readonly waivers?: string
  readonly advisory?: readonly string[]
  readonly [rule: string]: unknown
}

function specOf(
  { brand, version, deliverables = {}, waivers, advisory = [], ...rest }: WrittenSpec,
  file: string,
  naming: NamingPattern | null,
  rules: readonly AnyRule[],
): Spec {
  const ids = new Set(rules.map(({ id }) => id))
  const settings = Object.entries(rest).filter(([key]) => ids.has(key))
  return deepFreeze({
    file,
    brand,
    version,
    naming,
    settings: bare(settings),
    deliverables: bare(
      Object.entries(deliverables).map(([name, own]) => [name, bare(Object.entries(own ?? {}))]),
    ),
    waivers: waivers ?? null,
    advisory: [...advisory],
  })
}

/** A record without a prototype: a deliverable may be called "constructor". */
function bare<T>(entries: readonly (readonly [string, T])[]): Readonly<Record<string, T>> {
  const record: Record<string, T> = Object.create(null)
  for (const [key, value] of entries) record[key] = value
  return record
}

type Validator = ReturnType<typeof newValidator>
const validators = new WeakMap<readonly AnyRule[], Validator>()

/** Compiled once for each list of rules. */
function validatorOf(rules: readonly AnyRule[]): Validator {
  const validator = validators.get(rules) ?? newValidator(rules)
  validators.set(rules, validator)
  return validator
}

function newValidator(rules: readonly AnyRule[]) {
  const common = {
    allowUnionTypes: true,
    inlineRefs: false,
    code: { optimize: false },
    validateSchema: false,
  }
  // One spec is validated: compiling fast counts, 0.15 s instead of 0.5 s. A test holds the schema to its meta-schema.
  const ajv = new Ajv({ ...common, allErrors: true, verbose: true })
  const schema = specSchema(rules)
  return {
    schema,
    /** Tells whether a spec fits, as fast as can be. */
    narrowly: (data: unknown) => new Ajv(common).compile<WrittenSpec>(narrowSchema(schema, data)),
    /** All that is wrong with a spec. */
    wholly(data: unknown): ErrorObject[] {
      const isSpec = ajv.compile<WrittenSpec>(schema)
      return isSpec(data) ? [] : (isSpec.errors ?? [])
    },
    isNaming: ajv.compile<NamingSetting>(Naming),
    mismatches: new Mismatches(ajv),
  }
}
