import { quote } from '../text/quote.ts'
import { alternativesOf, choicesOf, type JsonSchema, typeOf } from './json-schema.ts'

/** A value of the spec in words, to stand after "is". */
export function describe(value: unknown): string {
  switch (typeOf(value)) {
    case 'string':
      return value === '' ? 'an empty text' : `the text ${quote(String(value))}`
    case 'number':
      return Number.isFinite(value) ? `the number ${String(value)}` : 'not a finite number'
    case 'null':
      return 'empty'
    case 'array':
      return 'a list'
    case 'object':
      return 'a mapping'
    default:
      return String(value)
  }
}

/** What a schema asks for, to stand after "it takes": "{ min, max } or { target, tolerance }", "a number of 0 or more". */
export function shapeOf(schema: JsonSchema): string {
  const shapes: string[] = []
  const choices: string[] = []
  for (const one of alternativesOf(schema)) {
    const values = choicesOf(one)
    if (one.title) shapes.push(one.title)
    else if (values) choices.push(...values.filter((value) => value !== false).map(String))
    else shapes.push(shape(one))
  }
  if (choices.length > 1) shapes.unshift(`one of ${choices.join(', ')}`)
  else shapes.unshift(...choices)
  return orList([...new Set(shapes)])
}

/** "a", "a or b", "a, b or c". */
export function orList(words: readonly string[]): string {
  if (words.length < 2) return words.join('')
  return `${words.slice(0, -1).join(', ')} or ${words.at(-1)}`
}

function shape(schema: JsonSchema): string {
  const types = [schema.type ?? []].flat().filter((type) => type !== 'null')
  switch (types[0]) {
    case 'object':
      return schema.properties ? `{ ${Object.keys(schema.properties).join(', ')} }` : 'a mapping'
    case 'array':
      return schema.items ? `a list, each item ${shapeOf(schema.items)}` : 'a list'
    case 'integer':
      return `a whole number${rangeOf(schema)}`
    case 'number':
      return `a number${rangeOf(schema)}`
    case 'boolean':
      return 'true or false'
    case 'string':
      return 'a text'
    default:
      return 'another value'
  }
}

function rangeOf({ minimum, maximum, exclusiveMinimum, exclusiveMaximum }: JsonSchema): string {
  const least = minimum !== undefined ? `${minimum} or more` : null
  const most = maximum !== undefined ? `${maximum} or less` : null
  if (minimum !== undefined && maximum !== undefined) return ` from ${minimum} to ${maximum}`
  if (exclusiveMinimum !== undefined) return ` above ${exclusiveMinimum}`
  if (exclusiveMaximum !== undefined) return ` below ${exclusiveMaximum}`
  return least || most ? ` of ${least ?? most}` : ''
}
