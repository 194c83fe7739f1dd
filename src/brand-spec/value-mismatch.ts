import type { ErrorObject } from 'ajv'
import { quote } from '../text/quote.ts'
import { alternativesOf, choicesOf, type JsonSchema, takesType } from './json-schema.ts'
import { valuesMeantBy } from './meant-value.ts'
import type { Mismatch } from './mismatch.ts'
import type { Place } from './place.ts'
import { describe, orList, shapeOf } from './words.ts'

type ValueError = Pick<ErrorObject, 'keyword' | 'data' | 'params'>

/** What is wrong with a value, in a sentence: what is, what should be, what to do. */
export function valueProblem(error: ValueError, schema: JsonSchema, place: Place): Mismatch {
  if (error.keyword === 'required') return missingKey(String(error.params.missingProperty), schema, place)
  return { place, at: 'value', message: sentence(error, schema, place) }
}

function missingKey(key: string, schema: JsonSchema, place: Place): Mismatch {
  const example = place.isSpec ? place.at(key).example : null
  const fix = example ? `add it as in: ${example}` : `it takes ${shapeOf(schema)}.`
  return { place, at: 'key', message: `${place.name} has no ${key}; ${fix}` }
}

function sentence({ keyword, data, params }: ValueError, schema: JsonSchema, place: Place): string {
  const { name } = place
  switch (keyword) {
    case 'type':
    case 'anyOf':
    case 'const':
    case 'enum':
      return unfit(data, schema, place)
    case 'pattern':
      return otherForm(data, schema, place)
    case 'minLength':
      return `${name} is ${describe(data)}; write a text.`
    case 'maxLength':
      return `${name} is longer than the limit of ${params.limit} characters; shorten it.`
    case 'minItems':
      return `${name} is an empty list; fill it, or remove the line.`
    case 'minProperties':
      return `${name} has no settings; it takes ${shapeOf(schema)}${asIn(place)}`
    case 'uniqueItems':
      return `${name} has the same value twice, as items ${Number(params.j) + 1} and ${Number(params.i) + 1}; keep one.`
    default:
      return takesOther(data, null, schema, place)
  }
}

function unfit(data: unknown, schema: JsonSchema, place: Place): string {
  if (data === null) return empty(schema, place)
  if (place.isSpec) return noMapping(data)
  const alternatives = alternativesOf(schema)
  if (typeof data === 'string') return unfitText(data, alternatives, schema, place)
  if (typeof data !== 'object' && alternatives.some((one) => takesType(one, 'string'))) {
    const written = place.spec.source.written(place.path) ?? String(data)
    if (alternatives.some((one) => takesText(one, written))) return unquoted(String(data), written, place)
    const form = alternatives.find((one) => one.pattern !== undefined)
    if (form) return otherForm(data, form, place)
  }
  const one: unknown = Array.isArray(data) && data.length === 1 ? data[0] : data
  return takesOther(data, typeof one === 'object' ? null : String(one), schema, place)
}

/** @param text what hints at the value that was meant; null for none */
function takesOther(data: unknown, text: string | null, schema: JsonSchema, place: Place): string {
  const found = `${place.name} is ${describe(data)}`
  const meant = text === null ? [] : valuesMeantBy(text, schema)
  return meant.length > 0
    ? `${found}; did you mean ${orList(meant)}? It takes ${shapeOf(schema)}.`
    : `${found}; it takes ${shapeOf(schema)}${asIn(place)}`
}

function unfitText(
  text: string,
  alternatives: readonly JsonSchema[],
  schema: JsonSchema,
  place: Place,
): string {
  const found = `${place.name} is ${describe(text)}`
  const takes = `it takes ${shapeOf(schema)}`
  const list = alternatives.find(
    ({ items }) => items && alternativesOf(items).some((one) => takesText(one, text)),
  )
  if (list) return `${found}; ${takes}: put it in brackets: [${text}].`
  const number = bareNumber(text, alternatives)
  if (number) return `${found}; ${takes}: write the number alone, without quotes or unit: ${number}.`
  return takesOther(text, text, schema, place)
}

function otherForm(data: unknown, { description = '' }: JsonSchema, { name }: Place): string {
  return `${name} is ${describe(data)}, which does not have the required form. ${description}`.trimEnd()
}

function takesText(schema: JsonSchema, text: string): boolean {
  const choices = choicesOf(schema)
  if (choices) return choices.includes(text)
  return takesType(schema, 'string') && new RegExp(schema.pattern ?? '', 'u').test(text)
}

function empty(schema: JsonSchema, place: Place): string {
  if (place.isSpec)
    return 'The spec is empty; begin with two lines such as "brand: Osprey Lane Veterinary Group" and "version: 1".'
  const color = /^#[0-9a-f]{3,8}\b/i.exec(place.spec.source.commentAfter(place.path) ?? '')?.[0]
  if (color)
    return `${place.name} is empty, because ${color} without quotes is a comment in YAML; put it in quotes: "${color}".`
  return `${place.name} is empty; it takes ${shapeOf(schema)}${asIn(place)}`
}

function noMapping(data: unknown): string {
  const unspaced = typeof data === 'string' ? /^\s*([\w-]+):(\S+)/.exec(data) : null
  if (unspaced) return `A colon needs a space after it: ${unspaced[1]}: ${quote(unspaced[2] ?? '')}.`
  return `The spec is ${describe(data)}; it should be lines of a key, a colon, a space and a value, such as "brand: Osprey Lane Veterinary Group".`
}

function unquoted(read: string, written: string, { name }: Place): string {
  const what = /^[\d.+-]/.test(read) ? `the number ${read}` : read
  const reading = written === read ? `is ${what}` : `is ${written}, which without quotes is ${what}`
  return `${name} ${reading} in YAML; it should be a text: put it in quotes: "${written}".`
}

/** The number in a text such as "6", "6 %" or "6,5"; null when there is more to it, or none of the alternatives takes it. */
function bareNumber(text: string, alternatives: readonly JsonSchema[]): string | null {
  const number = /^\s*([+-]?\d+(?:[.,]\d+)?)\s*[^\d\s]*\s*$/.exec(text)?.[1]?.replace(',', '.') ?? null
  const fits = (one: JsonSchema) =>
    takesType(one, 'number') && (one.type !== 'integer' || Number.isInteger(Number(number)))
  return alternatives.some(fits) ? number : null
}

function asIn({ example }: Place): string {
  return example === null ? '.' : `, as in: ${example}`
}
