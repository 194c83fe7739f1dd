import type { Spec } from '../brand-spec/spec.ts'
import { requiredGroups } from '../judge/needs.ts'
import type { MeasurementGroup } from '../measure/schema/measurements.ts'
import { RULES } from '../rules/index.ts'

/** The groups of measurements that judging frames by this spec reads. */
export function frameGroups(spec: Spec): MeasurementGroup[] {
  const read = requiredGroups(
    spec,
    RULES.filter(({ dependsOn }) => dependsOn !== 'export'),
  )
  // A session knows frames by their content.
  return ['checksum', ...read]
}
