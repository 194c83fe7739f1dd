import type { Settings, Spec } from '../brand-spec/spec.ts'
import { DECODABLE, type WorthDecoding } from '../measure/schema/formats.ts'
import { completed } from '../measure/schema/groups.ts'
import type { MeasurementGroup } from '../measure/schema/measurements.ts'
import { type AnyRule, isDeliveryRule, type KnownBefore } from '../rules/contract/delivery-rule.ts'
import type { Finding, Outcome } from '../rules/contract/outcome.ts'
import type { Rule, Subject } from '../rules/contract/rule.ts'
import { skipped } from '../rules/judging/unmeasured.ts'
import { listed } from '../text/quantity.ts'
import { withCropAdvice } from './crop-advice.ts'

const FILE_NAME = 'file-name'

/**
 * Judges one file: an outcome for each rule that the spec names, in general or for any deliverable, for the rules
 * that always run, and for `file-name` where there is a naming pattern; in the order of `rules`. Rules that nobody
 * asks for have no outcome.
 */
export function judgeFile(subject: Subject, spec: Spec, rules: readonly Rule[]): Outcome[] {
  const own = ownSettings(subject, spec)
  const nameRule = rules.find(({ id }) => id === FILE_NAME)
  const named = nameRule && judgeRule(nameRule, subject, spec, own, false)
  const nameFails = named?.verdict === 'fail' && !named.advisory
  const outcomes = rules.flatMap((rule) => judgeRule(rule, subject, spec, own, nameFails) ?? [])
  // Only a miss needs a fix.
  if (!outcomes.some(({ verdict }) => verdict === 'fail')) return outcomes
  const inForce = rules.map((rule) => {
    return { rule, setting: settingFor(rule, spec, own), advisory: spec.advisory.includes(rule.id) }
  })
  return withCropAdvice(outcomes, subject.measured, inForce)
}

/**
 * The groups of measurements that judging will read. The file's facts are always among them, and its decoding unless
 * the spec switches `intact` off and no other rule looks at the picture.
 */
export function requiredGroups(
  spec: Spec,
  rules: readonly AnyRule[],
  known: KnownBefore = NOTHING_KNOWN,
): MeasurementGroup[] {
  const running = rules.filter((rule) => {
    const own = isDeliveryRule(rule) ? [] : Object.values(spec.deliverables)
    const unnamed = isDeliveryRule(rule) ? (rule.unasked(known) ?? undefined) : rule.always
    const settings = [
      settingIn(spec.settings, rule.id) ?? unnamed,
      ...own.map((one) => settingIn(one, rule.id)),
    ]
    return settings.some((setting) => setting !== undefined && setting !== false)
  })
  return completed(running.flatMap(({ needs }) => needs))
}

/**
 * The formats that the spec lets through for a file; undefined when it refuses none. What the spec only advises against
 * is measured all the same.
 */
export function formatsFor(file: Pick<Subject, 'name'>, spec: Spec, rules: readonly Rule[]): WorthDecoding {
  const own = ownSettings(file, spec)
  const lists = rules.flatMap((rule) => {
    const setting = settingFor(rule, spec, own)
    const binds = setting !== undefined && setting !== false && !spec.advisory.includes(rule.id)
    return binds && rule.formats ? [rule.formats(setting)] : []
  })
  if (lists.length === 0) return undefined
  return DECODABLE.filter((format) => lists.every((list) => list.includes(format)))
}

const NOTHING_KNOWN: KnownBefore = { deliverables: [], roster: null, gallery: null }

/** Settings of the file's deliverable; null when the spec has deliverables and the file belongs to none of them. */
function ownSettings(
  { name: { deliverable } }: Pick<Subject, 'name'>,
  { deliverables }: Spec,
): Settings | null {
  if (Object.keys(deliverables).length === 0) return {}
  if (deliverable === null || !Object.hasOwn(deliverables, deliverable)) return null
  return deliverables[deliverable] ?? null
}

function judgeRule(
  rule: Rule,
  subject: Subject,
  spec: Spec,
  own: Settings | null,
  nameFails: boolean,
): Outcome | undefined {
  const setting = settingFor(rule, spec, own)
  const finding =
    setting === undefined
      ? askedElsewhere(rule, spec, own, nameFails)
      : setting === false
        ? switchedOff(rule, subject)
        : rule.judge(subject, setting)
  if (!finding) return undefined
  // A file that can't be read is no matter of taste: what stands guard over that can't be a mere warning.
  const guards = subject.measured.fault !== null && rule.always !== undefined
  return { rule: rule.id, advisory: spec.advisory.includes(rule.id) && !guards, ...finding }
}

/** Options in force for a file: its deliverable's, else the general ones, else those of a rule that is not named. */
function settingFor(rule: Rule, spec: Spec, own: Settings | null): unknown {
  return settingIn(own ?? {}, rule.id) ?? settingIn(spec.settings, rule.id) ?? unnamed(rule, spec)
}

/** Options of a rule that the spec does not name. A naming pattern alone asks for names to be judged. */
function unnamed(rule: Rule, { naming }: Spec): unknown {
  return rule.id === FILE_NAME && naming ? {} : rule.always
}

/** A rule that is off still fails a file that can't be read, if that is what it stands guard over. */
function switchedOff(rule: Rule, subject: Subject): Finding {
  if (subject.measured.fault && rule.always !== undefined) {
    const finding = rule.judge(subject, rule.always)
    if (finding.verdict === 'fail') return finding
  }
  return skipped('Switched off in the spec.')
}

/** For a rule that neither the general settings nor the file's deliverable name. */
function askedElsewhere(
  rule: Rule,
  { deliverables }: Spec,
  own: Settings | null,
  nameFails: boolean,
): Finding | undefined {
  const asking = Object.entries(deliverables)
    .filter(([, settings]) => (settingIn(settings, rule.id) ?? false) !== false)
    .map(([name]) => name)
  if (asking.length === 0) return undefined
  if (own) return skipped(`The spec asks this only of ${listed(asking)}.`)
  const reason = `The spec asks this only of ${listed(asking)}, and the name does not tell the deliverable`
  if (nameFails) return skipped(`${reason}; file-name says why.`)
  return { verdict: 'unsure', measured: null, expected: null, reason: `${reason}; check by eye.` }
}

function settingIn(settings: Settings, id: string): unknown {
  return Object.hasOwn(settings, id) ? settings[id] : undefined
}
