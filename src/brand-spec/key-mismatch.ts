import { meantBy } from '../rules/other-words.ts'
import { listed } from '../text/quantity.ts'
import { quote } from '../text/quote.ts'
import { alternativesOf, type JsonSchema } from './json-schema.ts'
import type { Mismatch } from './mismatch.ts'
import type { Place } from './place.ts'
import { orList, shapeOf } from './words.ts'

/** What is wrong with a key that none of the alternatives, or not all of its neighbors, allow. */
export function keyProblem(key: string, place: Place, alternatives: readonly JsonSchema[]): Mismatch {
  const owner = unindentedUnder(key, place)
  if (owner !== null) {
    return {
      place: place.at(key),
      at: 'key',
      message: `${quote(key)} belongs to ${owner} but is not indented under it; put two more spaces before it and before the other settings of ${owner}.`,
      covers: place.at(owner),
    }
  }
  return { place: place.at(key), at: 'key', message: sentence(key, place, alternatives) }
}

function sentence(key: string, place: Place, alternatives: readonly JsonSchema[]): string {
  const unspaced = /^([\w-]+):/.exec(key)
  if (unspaced) return `A colon needs a space after it, as in "${unspaced[1]}: ...".`
  const known = [...new Set(alternatives.flatMap(keysOf))]
  if (known.includes(key)) return crowded(key, place, alternatives)
  const { schema } = place.spec
  if (!place.isSpec && place.takesRules && keysOf(schema).includes(key))
    return `${quote(key)} applies to the whole spec, not to one deliverable; move it to the left margin.`
  const within = place.takesRules ? rulesWithin(key, place, known) : []
  if (within.length > 0)
    return `${quote(key)} is neither a rule nor a setting; write ${listed(within)} in its place, not under it.`
  const meant = meantBy(key, known)
  const what = place.takesRules
    ? `${quote(key)} is neither a rule nor a setting`
    : `${place.name} has no setting ${quote(key)}`
  if (meant.length > 0) return `${what}; did you mean ${orList(meant)}?`
  if (!place.takesRules) return `${what}; it takes ${orList([...new Set(alternatives.map(shapeOf))])}.`
  return `${what}; see the list with: portrait-gate explain`
}

/** What stands under a key that is none, though it could stand in its place: rules gathered under a heading. */
function rulesWithin(key: string, place: Place, known: readonly string[]): string[] {
  const value = place.spec.source.valueAt(place.at(key).path)
  return typeof value === 'object' && value !== null
    ? Object.keys(value).filter((one) => known.includes(one))
    : []
}

function crowded(key: string, place: Place, alternatives: readonly JsonSchema[]): string {
  const value = place.spec.source.valueAt(place.path)
  const others = Object.keys(value ?? {}).filter((other) => other !== key)
  return `${place.name} has ${quote(key)} together with ${orList(others).replace(' or ', ' and ')}, which can't be combined; it takes ${orList([...new Set(alternatives.map(shapeOf))])}.`
}

/** The key just before this one that is empty and would take it: their indentation got lost. */
function unindentedUnder(key: string, place: Place): string | null {
  const value = place.spec.source.valueAt(place.path)
  if (typeof value !== 'object' || value === null) return null
  const entries = Object.entries(value)
  const before = entries
    .slice(
      0,
      entries.findIndex(([other]) => other === key),
    )
    .reverse()
  const owner = before.find(([other]) => place.schemaOf(other) !== null)
  if (!owner || owner[1] !== null) return null
  const schema = place.schemaOf(owner[0])
  return schema && alternativesOf(schema).some((one) => takesKey(one, key)) ? owner[0] : null
}

/** What is wrong with the name of a deliverable or of a field. */
export function nameProblem(name: string, place: Place): Mismatch {
  const here = place.at(name)
  if (place.path[0] === 'deliverables' && place.spec.rules.has(name)) {
    return {
      place: here,
      at: 'key',
      message: `${name} is a rule in the place of a deliverable's name; indent it by two spaces under a deliverable, or move it to the left margin to apply it to all.`,
      covers: here,
    }
  }
  const form =
    place.path[0] === 'deliverables'
      ? 'letters and digits, with single spaces, dots, hyphens or underscores between them (at most 64 characters)'
      : 'lowercase letters a to z and digits, with single hyphens between them (at most 40 characters)'
  return { place: here, at: 'key', message: `${quote(name)} can't be a name here; use ${form}.` }
}

function takesKey({ additionalProperties, ...schema }: JsonSchema, key: string): boolean {
  return typeof additionalProperties === 'object' || keysOf(schema).includes(key)
}

function keysOf(schema: JsonSchema): string[] {
  return Object.keys(schema.properties ?? {})
}
