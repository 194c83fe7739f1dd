import type { SourceText } from '../files/source-text.ts'
import type { AnyRule } from '../rules/contract/delivery-rule.ts'
import type { PlacedProblem } from '../text/placed-problem.ts'
import { readYaml, type YamlSource } from '../yaml/yaml-source.ts'
import { fitsSpec } from './fits-spec.ts'
import { knownRules } from './known-rules.ts'
import type { Mismatch } from './mismatch.ts'
import { mismatchesOf } from './mismatches.ts'
import { Place } from './place.ts'
import { tidied } from './problems.ts'
import type { WrittenSpec } from './written-spec.ts'

/** One text of a spec, its own or one that it extends, that could be read as YAML. */
export interface Layer {
  readonly file: string
  readonly source: YamlSource
  readonly place: Place
  /** Null when it does not fit the schema. */
  readonly data: WrittenSpec | null
  readonly unfit: readonly Mismatch[]
  /** What is wrong with its YAML. */
  readonly problems: readonly PlacedProblem[]
}

/** Reads one text and holds it to the schema. */
export function readLayer(
  { file, text }: SourceText,
  rules: readonly AnyRule[],
): Layer | { problems: PlacedProblem[] } {
  const { source, problems } = readYaml(text)
  if (!source) return { problems: tidied(problems) }
  const { schema, byId } = knownRules(rules)
  const place = new Place([], { source, schema, rules: byId })
  const { data } = source
  if (fitsSpec(data, schema)) return { file, source, place, data, unfit: [], problems }
  return { file, source, place, data: null, unfit: mismatchesOf(data, schema, place), problems }
}

/** What a text of a spec says that it extends, as written, and where it says so; null when it says nothing sound. */
export function extensionOf(text: string): { path: string; line: number; column: number } | null {
  // An escape may spell the key otherwise.
  if (!text.includes('extends') && !text.includes('\\')) return null
  const { source } = readYaml(text)
  const path = source?.valueAt(['extends'])
  if (typeof path !== 'string' || path === '') return null
  const { line, column } = source?.problem(['extends'], 'value', '') ?? { line: 1, column: 1 }
  return { path, line, column }
}
