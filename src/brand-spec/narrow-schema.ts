import type { JsonSchema } from './json-schema.ts'

/**
 * The schema of a spec without the keys that one spec does not use: what it accepts of that spec the whole schema
 * accepts, and it is compiled several times as fast. What it refuses the whole schema must explain.
 */
export function narrowSchema(schema: JsonSchema, spec: unknown): JsonSchema {
  const keys = new Set([...keysOf(spec), ...valuesOf(valueAt(spec, 'deliverables')).flatMap(keysOf)])
  const { deliverable } = schema.definitions ?? {}
  if (!deliverable) return schema
  return {
    ...only(schema, keys),
    definitions: { ...schema.definitions, deliverable: only(deliverable, keys) },
  }
}

function only(schema: JsonSchema, keys: ReadonlySet<string>): JsonSchema {
  const used = Object.entries(schema.properties ?? {}).filter(([key]) => keys.has(key))
  return { ...schema, properties: Object.fromEntries(used) }
}

function keysOf(value: unknown): string[] {
  return typeof value === 'object' && value !== null ? Object.keys(value) : []
}

function valuesOf(value: unknown): unknown[] {
  return typeof value === 'object' && value !== null ? Object.values(value) : []
}

function valueAt(value: unknown, key: string): unknown {
  return Object.entries(typeof value === 'object' && value !== null ? value : {}).find(
    ([k]) => k === key,
  )?.[1]
}
