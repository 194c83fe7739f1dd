import { requiredGroups } from '../judge/needs.ts'
import { planDelivery, runs } from '../judge/plan.ts'
import { knownBy, type Standard } from '../judge/standard.ts'
import type { Source } from '../measure/file/read-file.ts'
import type { MeasurementGroup, Measurements } from '../measure/schema/measurements.ts'
import { type Means, measureAll } from '../pool/measure-all.ts'
import { ALL_RULES, DELIVERY_RULES } from '../rules/delivery-index.ts'

/**
 * Measures the files that are asked for in full, and the others as far as the rules over the whole delivery need it:
 * not at all when there are none. The results stand in the order of the files.
 * @param only paths of the files that are asked for; `told` is what the report tells of them beside what rules read
 */
export async function measureOnly(
  files: readonly Source[],
  { only, told }: { readonly only: ReadonlySet<string>; readonly told: readonly MeasurementGroup[] },
  standard: Standard,
  means: Means,
): Promise<Measurements[]> {
  const { spec } = standard
  const known = knownBy(standard)
  const asked = files.filter(({ path }) => only.has(path))
  const others = planDelivery(known, spec, DELIVERY_RULES).some(runs)
    ? files.filter(({ path }) => !only.has(path))
    : []
  const total = asked.length + others.length
  const measured = [
    ...(await measureAll(asked, [...told, ...requiredGroups(spec, ALL_RULES, known)], {
      ...means,
      progress: ({ done }) => means.progress({ done, total }),
    })),
    ...(await measureAll(others, requiredGroups(spec, DELIVERY_RULES, known), {
      ...means,
      progress: ({ done }) => means.progress({ done: asked.length + done, total }),
    })),
  ]
  const byFile = new Map(measured.map((one) => [one.file, one]))
  return files.flatMap(({ file }) => byFile.get(file) ?? [])
}
