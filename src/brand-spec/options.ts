import { capitalized } from '../text/capitalized.ts'
import { alternativesOf, type JsonSchema } from './json-schema.ts'
import { shapeOf } from './words.ts'

/** A key within the options of a rule, or of another key of the spec, such as `min`. */
export interface OptionKey {
  readonly name: string
  /** "a number of 0 or more". */
  readonly takes: string
  /** A sentence or a few; empty when the key speaks for itself. */
  readonly about: string
}

/** What a rule, or another key, takes in the spec, in words. */
export interface OptionsText {
  /** What stands beside its key: "{ min, max } or { target, tolerance }". */
  readonly takes: string
  /** A sentence or a few; may be empty. */
  readonly about: string
  readonly keys: readonly OptionKey[]
}

export function optionsText({ options: schema }: { readonly options: JsonSchema }): OptionsText {
  const keys = new Map<string, OptionKey>()
  for (const alternative of alternativesOf(schema)) {
    for (const [name, value] of Object.entries(alternative.properties ?? {})) {
      if (!keys.has(name)) keys.set(name, { name, takes: shapeOf(value), about: value.description ?? '' })
    }
  }
  return { takes: shapeOf(schema), about: schema.description ?? '', keys: [...keys.values()] }
}

/** A key's two texts as one. */
export function keySentence({ takes, about }: OptionKey): string {
  return about === '' ? takes : `${capitalized(takes)}. ${about}`
}
