/** The keywords of JSON Schema (draft-07) that spec schemas are made of. */
export interface JsonSchema {
  readonly $schema?: string
  readonly $ref?: string
  readonly definitions?: Readonly<Record<string, JsonSchema>>
  readonly type?: string | readonly string[]
  readonly anyOf?: readonly JsonSchema[]
  readonly const?: unknown
  readonly enum?: readonly unknown[]
  readonly properties?: Readonly<Record<string, JsonSchema>>
  readonly propertyNames?: JsonSchema
  readonly additionalProperties?: boolean | JsonSchema
  readonly required?: readonly string[]
  readonly items?: JsonSchema
  readonly minimum?: number
  readonly maximum?: number
  readonly exclusiveMinimum?: number
  readonly exclusiveMaximum?: number
  readonly pattern?: string
  /** What fits, to stand after "it takes". */
  readonly title?: string
  readonly description?: string
}

/** A schema's alternatives, those within alternatives too; itself when it has none. */
export function alternativesOf(schema: JsonSchema): readonly JsonSchema[] {
  return schema.anyOf ? schema.anyOf.flatMap(alternativesOf) : [schema]
}

/** The values that a schema allows one by one; null when it allows others too. */
export function choicesOf(schema: JsonSchema): readonly unknown[] | null {
  if (schema.const !== undefined) return [schema.const]
  return schema.enum ?? null
}

/** JSON's types; a whole number is a number here. */
export function typeOf(value: unknown): string {
  if (value === null) return 'null'
  if (Array.isArray(value)) return 'array'
  return typeof value
}

/** Whether values of a JSON type can fit a schema that has no alternatives. */
export function takesType(schema: JsonSchema, type: string): boolean {
  const choices = choicesOf(schema)
  if (choices) return choices.some((choice) => typeOf(choice) === type)
  const types = schema.type === undefined ? [] : [schema.type].flat()
  return types.length === 0 || types.some((one) => (one === 'integer' ? 'number' : one) === type)
}
