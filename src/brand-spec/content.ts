import type { NamingPattern } from '../naming/naming.ts'
import { parsePattern } from '../naming/naming.ts'
import type { FieldConstraint } from '../naming/naming-field.ts'
import type { Transliteration } from '../naming/transliterate.ts'
import { templateProblem } from '../rules/metadata/wanted-text.ts'
import type { PlacedProblem } from '../text/placed-problem.ts'
import type { Place } from './place.ts'

/** Settings of rules that fit their schemas but ask for what nothing can meet. Looks at sound values only. */
export function impossibleSettings(
  spec: Place,
  sound: (path: readonly string[]) => boolean,
): PlacedProblem[] {
  const deliverables = namesOf(spec.spec.source.valueAt(['deliverables']))
  const owners = [spec, ...deliverables.map((name) => spec.at('deliverables', name))]
  return owners.flatMap((owner) =>
    [...spec.spec.rules.values()].flatMap((rule) => {
      const place = owner.at(rule.id)
      const value = spec.spec.source.valueAt(place.path)
      if (value === undefined || value === false || !sound(place.path)) return []
      const problem = rule.problem(value)
      return problem === null
        ? []
        : [spec.spec.source.problem(place.path, 'value', `${place.name}: ${problem}`)]
    }),
  )
}

/**
 * Deliverables whose folders would be one on systems that don't tell capital letters from small ones.
 * @param inherited names of those that the spec has from one that it extends
 */
export function twinDeliverables(spec: Place, inherited: readonly string[]): PlacedProblem[] {
  const names = namesOf(spec.spec.source.valueAt(['deliverables']))
  const plainOf = (name: string) => name.normalize('NFC').toLowerCase()
  const first = new Map(inherited.map((name) => [plainOf(name), name]))
  return names.flatMap((name) => {
    const plain = plainOf(name)
    const twin = first.get(plain)
    if (twin === undefined) first.set(plain, name)
    if (twin === undefined || twin === name) return []
    const message = `The deliverables ${twin} and ${name} differ only in upper and lower case; give them names that differ in letters.`
    return [spec.spec.source.problem(['deliverables', name], 'key', message)]
  })
}

export interface NamingSetting {
  readonly pattern: string
  readonly fields?: Readonly<Record<string, FieldConstraint>>
  readonly transliterate?: Transliteration
}

/** The naming pattern, or what is wrong with it. @param deliverables names of those that are ordered */
export function readNaming(
  { pattern, fields = {}, transliterate }: NamingSetting,
  spec: Place,
  deliverables: readonly string[],
): { pattern: NamingPattern } | { problems: PlacedProblem[] } {
  const { source } = spec.spec
  const parsed = parsePattern(pattern, fields, deliverables, transliterate)
  if ('pattern' in parsed) return parsed
  return {
    problems: parsed.problems.map((problem) =>
      'at' in problem
        ? source.problemWithin(['naming', 'pattern'], problem.at, problem.message)
        : source.problem(['naming', 'fields', problem.field], 'key', problem.message),
    ),
  }
}

/**
 * How masters are named, or what is wrong with it: the pattern uses fields of `naming`.
 * @param deliverables names of those that are ordered
 */
export function readMasters(
  text: string,
  naming: NamingPattern | null,
  { spec: { source } }: Place,
  deliverables: readonly string[],
): { pattern: NamingPattern } | { problems: PlacedProblem[] } {
  const declared = Object.entries(naming?.fields ?? {})
  const used = Object.fromEntries(declared.filter(([field]) => text.includes(`{${field}}`)))
  const parsed = parsePattern(text, used, deliverables)
  if ('pattern' in parsed) return parsed
  return {
    problems: parsed.problems.map((problem) =>
      source.problemWithin(['masters', 'naming'], 'at' in problem ? problem.at : 0, problem.message),
    ),
  }
}

/** Templates of metadata whose braces are not in pairs. */
export function unfitTemplates({ spec: { source } }: Place): PlacedProblem[] {
  const fields = source.valueAt(['prepare', 'metadata'])
  if (typeof fields !== 'object' || fields === null) return []
  return Object.entries(fields).flatMap(([field, templates]) => {
    const texts = [templates].flat().filter((text) => typeof text === 'string')
    const problem = texts.map(templateProblem).find((one) => one !== null)
    return problem ? [source.problem(['prepare', 'metadata', field], 'value', problem)] : []
  })
}

function namesOf(mapping: unknown): string[] {
  return typeof mapping === 'object' && mapping !== null && !Array.isArray(mapping)
    ? Object.keys(mapping)
    : []
}
