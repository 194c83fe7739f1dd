import { Ajv, type ErrorObject } from 'ajv'
import { meantBy } from '../rules/other-words.ts'
import { alternativesOf, choicesOf, type JsonSchema, takesType, typeOf } from './json-schema.ts'
import { keyProblem, nameProblem } from './key-mismatch.ts'
import type { Mismatch } from './mismatch.ts'
import type { Place } from './place.ts'
import { valueProblem } from './value-mismatch.ts'

// More are not told at once, and looking each up takes time.
const MOST = 200

/** What is wrong with data that do not fit the schema of a spec. @param place where they stand */
export function mismatchesOf(data: unknown, schema: JsonSchema, place: Place): Mismatch[] {
  const ajv = explaining.get(schema) ?? new Ajv(OPTIONS)
  explaining.set(schema, ajv)
  const isSpec = ajv.compile(schema)
  return isSpec(data) ? [] : new Mismatches(ajv).of(isSpec.errors ?? [], place)
}

/** Each compiles its schema once. */
const explaining = new WeakMap<JsonSchema, Ajv>()

/** A test holds the schema to its meta-schema. */
const OPTIONS = {
  allErrors: true,
  verbose: true,
  allowUnionTypes: true,
  inlineRefs: false,
  code: { optimize: false },
  validateSchema: false,
}

/**
 * Turns a validator's errors into sentences. Of alternatives it tells about the one that was most likely meant: the
 * alternatives of the value's type are tried one by one, and the one with the fewest errors is explained.
 */
class Mismatches {
  readonly #ajv: Ajv

  constructor(ajv: Ajv) {
    this.#ajv = ajv
  }

  /** @param start the place that the validated value stands at */
  of(errors: readonly ErrorObject[], start: Place): Mismatch[] {
    return withoutMeant(errors.filter(standsAlone))
      .slice(0, MOST)
      .flatMap((error) => {
        const place = start.below(error.instancePath)
        const schema: JsonSchema = error.parentSchema ?? {}
        if (error.keyword === 'anyOf') return this.#union(schema, error.data, place)
        if (error.keyword === 'additionalProperties') return [keyProblem(strangerOf(error), place, [schema])]
        if (error.keyword === 'propertyNames') return [nameProblem(String(error.params.propertyName), place)]
        return [valueProblem(error, schema, place)]
      })
  }

  #union(schema: JsonSchema, data: unknown, place: Place): Mismatch[] {
    const type = typeOf(data)
    const fitting = alternativesOf(schema).filter((one) => takesType(one, type))
    // `false` switches a rule off; that alone does not make a rule's value a choice.
    const meant = fitting.filter((one) => one.const !== false)
    if (meant.length === 0 || meant.every(choicesOf))
      return [valueProblem({ keyword: 'anyOf', data, params: {} }, schema, place)]
    return type === 'object' ? this.#mapping(meant, data as object, place) : this.#best(meant, data, place)
  }

  #mapping(alternatives: readonly JsonSchema[], data: object, place: Place): Mismatch[] {
    const known = new Set(alternatives.flatMap((one) => Object.keys(one.properties ?? {})))
    const entries = Object.entries(data)
    const strangers = entries.map(([key]) => key).filter((key) => !known.has(key))
    if (entries.length === 0)
      return [valueProblem({ keyword: 'minProperties', data, params: {} }, { anyOf: alternatives }, place)]
    if (strangers.length === 0) return this.#best(alternatives, data, place)
    const rest = Object.fromEntries(entries.filter(([key]) => known.has(key)))
    const told = strangers.slice(0, MOST).map((key) => keyProblem(key, place, alternatives))
    // What is missing may be what a stranger was meant to be.
    return [...told, ...this.#best(alternatives, rest, place, 'required')]
  }

  #best(alternatives: readonly JsonSchema[], data: unknown, place: Place, leaveOut?: string): Mismatch[] {
    let best: readonly ErrorObject[] | null = null
    for (const alternative of alternatives) {
      const validate = this.#ajv.compile(alternative)
      if (validate(data)) return []
      const errors = (validate.errors ?? []).filter(
        (error) => standsAlone(error) && error.keyword !== leaveOut,
      )
      if (best === null || errors.length < best.length) best = errors
    }
    const here = best?.find(
      ({ keyword, instancePath }) => keyword === 'additionalProperties' && instancePath === '',
    )
    return here ? [keyProblem(strangerOf(here), place, alternatives)] : this.of(best ?? [], place)
  }
}

/** Errors within alternatives are told with their union, errors of a key's name with that name. */
function standsAlone({ schemaPath, keyword, propertyName }: ErrorObject): boolean {
  return !/\/anyOf\/\d+/.test(schemaPath) && (propertyName === undefined || keyword === 'propertyNames')
}

function strangerOf({ params }: ErrorObject): string {
  return String(params.additionalProperty)
}

/** Leaves out that a key is missing where a misspelled one stands in its place. */
function withoutMeant(errors: readonly ErrorObject[]): ErrorObject[] {
  const missing = errors.filter(({ keyword }) => keyword === 'required')
  const meant = missing.filter(({ instancePath, params }) =>
    errors.some(
      (other) =>
        other.keyword === 'additionalProperties' &&
        other.instancePath === instancePath &&
        meantBy(strangerOf(other), [String(params.missingProperty)]).length > 0,
    ),
  )
  return errors.filter((error) => !meant.includes(error))
}
