import { stringify } from 'yaml'
import type { Spec } from '../brand-spec/spec.ts'
import type { Difference } from './receipt.ts'

/** Where two specs ask for different things; the order of keys, comments and how they are divided into files don't count. */
export function specDifferences(ours: Spec, theirs: Spec): Difference[] {
  const [mine, other] = [settingsOf(ours), settingsOf(theirs)]
  return [...new Set([...mine.keys(), ...other.keys()])].flatMap((setting) => {
    const [a = null, b = null] = [mine.get(setting), other.get(setting)]
    return a === b ? [] : [{ setting, ours: a, theirs: b }]
  })
}

/** All settings in a line of YAML each, by their keys. */
function settingsOf({ brand, version, naming, settings, deliverables, advisory }: Spec): Map<string, string> {
  const { roster: _, ...rules } = settings
  const all = new Map<string, string>([
    ['brand', line(brand)],
    ['version', line(version)],
  ])
  if (naming) all.set('naming', line({ pattern: naming.text, fields: naming.fields }))
  for (const [rule, options] of Object.entries(rules)) all.set(rule, line(options))
  for (const [name, own] of Object.entries(deliverables)) {
    all.set(`deliverable ${name}`, 'ordered')
    for (const [rule, options] of Object.entries(own)) all.set(`${name}: ${rule}`, line(options))
  }
  if (advisory.length > 0) all.set('advisory', line([...advisory].sort()))
  return all
}

function line(value: unknown): string {
  return stringify(value, { collectionStyle: 'flow', lineWidth: 0, sortMapEntries: true }).trimEnd()
}
