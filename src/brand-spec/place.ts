import { type AnyRule, isDeliveryRule } from '../rules/contract/delivery-rule.ts'
import { quote } from '../text/quote.ts'
import type { YamlSource } from '../yaml/yaml-source.ts'
import type { JsonSchema } from './json-schema.ts'

/** What all places of one spec share. */
export interface Surroundings {
  readonly source: YamlSource
  readonly schema: JsonSchema
  readonly rules: ReadonlyMap<string, AnyRule>
}

/** A value in a spec, by the keys (list items by their index from 0) that lead to it. */
export class Place {
  readonly path: readonly string[]
  readonly spec: Surroundings

  constructor(path: readonly string[], spec: Surroundings) {
    this.path = path
    this.spec = spec
  }

  /** @param pointer JSON Pointer (RFC 6901) from this place on */
  below(pointer: string): Place {
    const steps = pointer
      .split('/')
      .slice(1)
      .map((step) => step.replaceAll('~1', '/').replaceAll('~0', '~'))
    return this.at(...steps)
  }

  at(...steps: readonly string[]): Place {
    return new Place([...this.path, ...steps], this.spec)
  }

  get isSpec(): boolean {
    return this.path.length === 0
  }

  /** Whether rules are set here: at the top and in each deliverable. */
  get takesRules(): boolean {
    return this.isSpec || (this.path.length === 2 && this.path[0] === 'deliverables')
  }

  /** Schema of a key at the top or in a deliverable; null for keys that don't stand there, and elsewhere. */
  schemaOf(key: string): JsonSchema | null {
    const { properties = {}, definitions = {} } = this.spec.schema
    if (!this.takesRules) return null
    const schema =
      this.isSpec && Object.hasOwn(properties, key) ? properties[key] : { $ref: `#/definitions/${key}` }
    if (!schema?.$ref) return schema ?? null
    const id = schema.$ref.slice('#/definitions/'.length)
    const rule = this.spec.rules.get(id)
    if (!rule || (!this.isSpec && isDeliveryRule(rule))) return null
    return Object.hasOwn(definitions, id) ? (definitions[id] ?? null) : null
  }

  /** How a sentence calls this place: "headroom.min", "advisory (item 2)", "The spec". */
  get name(): string {
    let name = ''
    for (const [index, step] of this.path.entries()) {
      if (Array.isArray(this.spec.source.valueAt(this.path.slice(0, index))))
        name += ` (item ${Number(step) + 1})`
      else name += `${name && '.'}${word(step)}`
    }
    return name || 'The spec'
  }

  /** A line of YAML that would be right here, when one is known. */
  get example(): string | null {
    const [last = ''] = this.path.slice(-1)
    if (this.path.length === 1 && Object.hasOwn(KEY_EXAMPLES, last)) return KEY_EXAMPLES[last] ?? null
    const rule = new Place(this.path.slice(0, -1), this.spec).takesRules && this.spec.rules.get(last)
    const lines = rule ? rule.text.example.trim().split('\n') : []
    return lines.find((line) => line.startsWith(`${last}: `)) ?? null
  }
}

/** A line for each key at the top of a spec that is no rule. */
export const KEY_EXAMPLES: Readonly<Record<string, string>> = {
  brand: 'brand: Osprey Lane Veterinary Group',
  version: 'version: 1',
  extends: 'extends: ../group.yaml',
  naming: 'naming: { pattern: "{family}-{given}.jpg" }',
  deliverables: 'deliverables: { web: { aspect-ratio: "1:1" } }',
  waivers: 'waivers: waivers.yaml',
  masters: 'masters: { naming: "{staff-id}.tif" }',
  prepare: 'prepare: { metadata: { alt-text: "Portrait of {given} {family}" } }',
  consent: 'consent: Your portrait is used on the team page and on your badge.',
  advisory: 'advisory: [tilt]',
}

function word(step: string): string {
  return /^[\p{L}\p{N}_-]{1,40}$/u.test(step) ? step : quote(step)
}
