import type { Spec } from '../brand-spec/spec.ts'
import { DECODABLE, type WorthDecoding } from '../measure/schema/formats.ts'
import { completed } from '../measure/schema/groups.ts'
import type { MeasurementGroup } from '../measure/schema/measurements.ts'
import type { NameReading } from '../naming/name-reading.ts'
import { type AnyRule, isDeliveryRule, type KnownBefore } from '../rules/contract/delivery-rule.ts'
import type { Rule } from '../rules/contract/rule.ts'
import { type Planned, planDelivery, planFile, runs } from './plan.ts'

/**
 * The groups of measurements that judging will read. The file's facts are always among them, and its decoding unless
 * the spec switches `intact` off and no other rule looks at the picture.
 */
export function requiredGroups(
  spec: Spec,
  rules: readonly AnyRule[],
  known: KnownBefore = NOTHING_KNOWN,
): MeasurementGroup[] {
  const ofFiles = rules.flatMap((rule) => (isDeliveryRule(rule) ? [] : [rule]))
  const anyFile = [null, ...Object.keys(spec.deliverables)].map((deliverable) => ({
    name: { deliverable },
    readable: true,
  }))
  const plans: Planned<AnyRule>[] = [
    ...anyFile.flatMap((file) => planFile(file, spec, ofFiles)),
    ...planDelivery(known, spec, rules.filter(isDeliveryRule)),
  ]
  return completed(
    plans
      .filter(runs)
      .flatMap(({ rule, application }) => [
        ...rule.needs,
        ...('alsoNeeds' in rule && rule.alsoNeeds ? rule.alsoNeeds(application.options) : []),
      ]),
  )
}

const NOTHING_KNOWN: KnownBefore = { deliverables: [], roster: null, gallery: null }

/**
 * The formats that the spec lets through for a file; undefined when it refuses none. What the spec only advises against
 * is measured all the same.
 */
export function formatsFor(
  name: Pick<NameReading, 'deliverable'>,
  spec: Spec,
  rules: readonly Rule[],
): WorthDecoding {
  const lists = planFile({ name, readable: true }, spec, rules)
    .filter(runs)
    .flatMap(({ rule, application, advisory }) =>
      advisory || !rule.formats ? [] : [rule.formats(application.options)],
    )
  if (lists.length === 0) return undefined
  return DECODABLE.filter((format) => lists.every((list) => list.includes(format)))
}
