import type { Spec } from '../brand-spec/spec.ts'
import { settledCauses, withoutRepeats } from '../judge/causes.ts'
import { type Planned, planFile } from '../judge/plan.ts'
import type { Measurements } from '../measure/schema/measurements.ts'
import type { SettledCause } from '../rules/contract/delivery-rule.ts'
import type { Outcome } from '../rules/contract/outcome.ts'
import type { Rule } from '../rules/contract/rule.ts'
import { RULES } from '../rules/index.ts'
import type { SceneOutcome } from './frame-report.ts'

const SCENE = RULES.filter(({ dependsOn }) => dependsOn === 'scene')

/** What the rules say that no crop changes: what several deliverables ask alike is told once. */
export function judgeScene(
  measured: Measurements,
  spec: Spec,
): { readonly scene: SceneOutcome[]; readonly causes: ReadonlySet<SettledCause> } {
  const names = Object.keys(spec.deliverables)
  const told = new Map<string, SceneOutcome>()
  const causes = new Set<SettledCause>()
  for (const deliverable of names.length > 0 ? names : [null]) {
    const outcomes = outcomesFor(measured, spec, deliverable)
    for (const cause of settledCauses(outcomes, measured)) causes.add(cause)
    for (const outcome of outcomes) {
      const key = JSON.stringify(outcome)
      const own = deliverable === null ? [] : [deliverable]
      const { deliverables } = told.get(key) ?? { deliverables: [] }
      told.set(key, { ...outcome, deliverables: [...deliverables, ...own] })
    }
  }
  const order = (outcome: SceneOutcome) => SCENE.findIndex(({ id }) => id === outcome.rule)
  return { scene: [...told.values()].toSorted((a, b) => order(a) - order(b)), causes }
}

function outcomesFor(measured: Measurements, spec: Spec, deliverable: string | null): Outcome[] {
  const plan = planFile({ name: { deliverable }, readable: measured.fault === null }, spec, SCENE)
  const name = { path: measured.file, pattern: null, fields: {}, deliverable, problems: [] }
  const outcomes = plan.flatMap((planned): Outcome[] => {
    const { rule, application, advisory } = planned
    if (!isJudged(planned) || !('options' in application)) return []
    return [{ rule: rule.id, advisory, ...rule.judge({ measured, name }, application.options) }]
  })
  return withoutRepeats(outcomes, measured, plan)
}

/** Whether a rule of the plan judges the frame, or stands guard over one that can't be read. */
function isJudged({ application }: Planned<Rule>): boolean {
  return application.kind === 'judge' || application.kind === 'guard'
}
