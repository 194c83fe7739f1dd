import { meantBy } from '../rules/other-words.ts'
import { alternativesOf, choicesOf, type JsonSchema } from './json-schema.ts'

/**
 * What a text that does not fit was most likely meant to be, as YAML that fits: "sRGB", "[jpeg]", "{ side: left }"; none
 * where no value is near, or several settings would take it.
 */
export function valuesMeantBy(text: string, schema: JsonSchema): readonly string[] {
  const alternatives = alternativesOf(schema)
  const words = alternatives.flatMap((one) => choicesOf(one) ?? []).filter((one) => typeof one === 'string')
  const meant = meantBy(text, words)
  if (meant.length > 0) return meant
  const items = alternatives.flatMap((one) => (one.items ? valuesMeantBy(text, one.items) : []))
  if (items.length > 0) return items.map((item) => `[${item}]`)
  const settings = alternatives
    .flatMap((one) => Object.entries(one.properties ?? {}))
    .map(([key, value]) => valuesMeantBy(text, value).map((one) => `{ ${key}: ${one} }`))
    .filter((values) => values.length > 0)
  return settings.length === 1 ? (settings[0] ?? []) : []
}
