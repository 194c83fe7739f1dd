import type { Settings, Spec } from '../brand-spec/spec.ts'
import type { NameReading } from '../naming/name-reading.ts'
import type { AnyRule, DeliveryRule, KnownBefore } from '../rules/contract/delivery-rule.ts'
import type { Rule } from '../rules/contract/rule.ts'

/** How a rule runs: with which options, or why it does not. */
type Application =
  | { readonly kind: 'judge'; readonly options: unknown }
  /** Switched off, but not for a file that can't be read: with these options a failure counts all the same. */
  | { readonly kind: 'guard'; readonly options: unknown }
  /** Switched off. */
  | { readonly kind: 'off' }
  /** Only these other deliverables are to meet it. */
  | { readonly kind: 'elsewhere'; readonly deliverables: readonly string[] }
  /** Only these deliverables are to meet it, and the name does not tell whether the file belongs to one. */
  | { readonly kind: 'unplaced'; readonly deliverables: readonly string[] }

/** A rule that somebody asks for. */
export interface Planned<R extends AnyRule> {
  readonly rule: R
  readonly application: Application
  /** Whether a failure only warns. */
  readonly advisory: boolean
}

/** What decides which rules run on a file. */
export interface Planning {
  readonly name: Pick<NameReading, 'deliverable'>
  /** Whether it could be read; true as long as nobody has tried. */
  readonly readable: boolean
}

/**
 * Which rules run on one file: those that the spec names, in general or for any deliverable; those that always run; and
 * `file-name` where there is a naming pattern. In the order of `rules`; rules that nobody asks for are left out. This is
 * the one place that knows.
 */
export function planFile(file: Planning, spec: Spec, rules: readonly Rule[]): readonly Planned<Rule>[] {
  const plans = plansBy(spec, rules)
  const key = `${file.readable} ${file.name.deliverable === null ? '' : `of ${file.name.deliverable}`}`
  const plan = plans.get(key) ?? planned(file, spec, rules)
  plans.set(key, plan)
  return plan
}

type Plans = Map<string, readonly Planned<Rule>[]>

/** Thousands of files have the same plan, and a spec is frozen. */
const PLANS = new WeakMap<Spec, WeakMap<readonly Rule[], Plans>>()

function plansBy(spec: Spec, rules: readonly Rule[]): Plans {
  const ofSpec = PLANS.get(spec) ?? new WeakMap<readonly Rule[], Plans>()
  PLANS.set(spec, ofSpec)
  const plans: Plans = ofSpec.get(rules) ?? new Map()
  ofSpec.set(rules, plans)
  return plans
}

function planned(file: Planning, spec: Spec, rules: readonly Rule[]): Planned<Rule>[] {
  const own = ownSettings(file.name, spec)
  return rules.flatMap((rule) => {
    const setting = settingIn(own ?? {}, rule.id) ?? settingIn(spec.settings, rule.id) ?? unnamed(rule, spec)
    const application =
      setting === undefined ? askedOfOthers(rule, spec, own) : applicationBy(setting, rule, file)
    // A file that can't be read is no matter of taste: what stands guard over that can't be a mere warning.
    const guards = !file.readable && rule.always !== undefined
    return application ? [{ rule, application, advisory: isAdvisory(rule, spec) && !guards }] : []
  })
}

/** The same for the rules over the whole delivery, which no deliverable sets for itself. */
export function planDelivery(
  known: KnownBefore,
  spec: Spec,
  rules: readonly DeliveryRule[],
): Planned<DeliveryRule>[] {
  return rules.flatMap((rule) => {
    const setting = settingIn(spec.settings, rule.id) ?? rule.unasked(known)
    if (setting === undefined || setting === null) return []
    const application: Application = setting === false ? { kind: 'off' } : { kind: 'judge', options: setting }
    return [{ rule, application, advisory: isAdvisory(rule, spec) }]
  })
}

/** A rule that judges. */
export interface Running<R extends AnyRule> extends Planned<R> {
  readonly application: Extract<Application, { readonly kind: 'judge' }>
}

export function runs<R extends AnyRule>(planned: Planned<R>): planned is Running<R> {
  return planned.application.kind === 'judge'
}

function isAdvisory({ id }: AnyRule, { advisory }: Spec): boolean {
  return advisory.includes(id)
}

/** Settings of the file's deliverable; null when the spec has deliverables and the file belongs to none of them. */
function ownSettings({ deliverable }: Planning['name'], { deliverables }: Spec): Settings | null {
  if (Object.keys(deliverables).length === 0) return {}
  if (deliverable === null || !Object.hasOwn(deliverables, deliverable)) return null
  return deliverables[deliverable] ?? null
}

/** Options of a rule that the spec does not name. A naming pattern alone asks for names to be judged. */
function unnamed(rule: Rule, { naming }: Spec): unknown {
  return rule.id === FILE_NAME && naming ? {} : rule.always
}

/** The rule on which a naming pattern has a bearing: it alone asks for it, and other rules leave it to tell of names. */
export const FILE_NAME = 'file-name'

function applicationBy(setting: unknown, rule: Rule, { readable }: Planning): Application {
  if (setting !== false) return { kind: 'judge', options: setting }
  return readable || rule.always === undefined ? { kind: 'off' } : { kind: 'guard', options: rule.always }
}

/** For a rule that neither the general settings nor the file's deliverable name; null when no deliverable does. */
function askedOfOthers(rule: Rule, { deliverables }: Spec, own: Settings | null): Application | null {
  const asking = Object.entries(deliverables)
    .filter(([, settings]) => (settingIn(settings, rule.id) ?? false) !== false)
    .map(([name]) => name)
  if (asking.length === 0) return null
  return { kind: own ? 'elsewhere' : 'unplaced', deliverables: asking }
}

function settingIn(settings: Settings, id: string): unknown {
  return Object.hasOwn(settings, id) ? settings[id] : undefined
}
