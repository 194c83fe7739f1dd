import { loadSpec } from '../../src/brand-spec/load.ts'
import type { Spec } from '../../src/brand-spec/spec.ts'
import { ALL_RULES } from '../../src/rules/delivery-index.ts'
import { limitsOf } from '../../src/rules/judging/band.ts'

export interface Range {
  readonly min: number
  readonly max: number
}

/** A derived spec, loaded as a client's would be. @throws Error when it has problems */
export function loaded(text: string): Spec {
  const spec = loadSpec(text, 'derived.yaml', ALL_RULES)
  if ('problems' in spec)
    throw new Error(`${spec.problems.map(({ message }) => message).join('\n')}\n${text}`)
  return spec.spec
}

/** The band that a spec gives a rule. */
export function bandOf(spec: Spec, rule: string): Range {
  return limitsOf(spec.settings[rule] as Parameters<typeof limitsOf>[0])
}
