import type { Static, TSchema } from '@sinclair/typebox'
import type { CropTold } from '../../framing/crop-box.ts'
import type { MeasurementGroup } from '../../measure/schema/measurements.ts'
import type { Guesses } from '../../people/guesses.ts'
import type { Attribution } from '../../people/people.ts'
import type { Person } from '../../people/person.ts'
import type { Roster } from '../../people/roster.ts'
import type { DeliveryFinding } from './delivery-outcome.ts'
import type { Rule, RuleText, Subject } from './rule.ts'
import type { Severity } from './severity.ts'
import type { Stage } from './stage.ts'

/** Something about a picture that one rule on the file reports for all others, or that the spec lets pass. */
export type SettledCause = 'no-face' | 'not-plain' | 'head-cut' | 'no-color'

/** One file of the delivery, with the person whom its name stands for. */
export interface DeliveredFile extends Omit<Subject, keyof Attribution>, Attribution {
  /** What the rules on the file have settled, so that no rule over the delivery reports it again. */
  readonly settled: readonly SettledCause[]
  /** What the rules on the file say of its crop; null when they leave it as it is. */
  readonly fileCrop: FileCrop | null
}

/** The rule on a file that says how it is to be cropped; no crop where none meets all rules or the head has to be leveled first. */
export interface FileCrop {
  readonly rule: string
  readonly crop: CropTold | null
}

/** A portrait that is published already, as numbers. */
export interface GalleryPortrait {
  readonly deliverable: string | null
  /** By the ids of the traits that a set is compared by; null where one was not measured with confidence. */
  readonly traits: Readonly<Record<string, number | null>>
}

/** The whole delivery as the rules see it: plain facts, no pixels and no I/O. */
export interface Delivery {
  /** Every file that was judged, in the order of the paths. */
  readonly files: readonly DeliveredFile[]
  /** Those on the roster in its order, then others whom names of files tell, by label. */
  readonly people: readonly Person[]
  /** Names of the ordered deliverables; none when the spec has none and each person gets one portrait. */
  readonly deliverables: readonly string[]
  readonly roster: Roster | null
  /** Whom of the missing those may be who are not on the roster. */
  readonly guesses: Guesses
  /** The day on which it is judged, as 2027-03-31 (UTC). */
  readonly today: string
  /** Whether the rule `file-name` runs, and so tells what is wrong with names. */
  readonly namesJudged: boolean
  /** Null when there is none to compare with. */
  readonly gallery: readonly GalleryPortrait[] | null
  /** Whether these are only some of the files: what is not there says nothing. */
  readonly partial: boolean
}

/** What is known of a delivery before anything is measured. */
export type KnownBefore = Pick<Delivery, 'deliverables' | 'roster' | 'gallery'>

/** A rule over the whole delivery. The spec sets it once, not for each deliverable. */
export interface DeliveryRule {
  readonly scope: 'delivery'
  readonly id: string
  readonly severity: Severity
  readonly dependsOn: Stage
  readonly text: RuleText
  /** JSON Schema (draft-07) of the value that stands beside the rule's key in the spec. */
  readonly options: TSchema
  /** Options that the rule runs with when the spec does not name it; null when it then does not run. */
  readonly unasked: (known: KnownBefore) => unknown
  /** Measurement groups that the rule reads. */
  readonly needs: readonly MeasurementGroup[]
  /** What is wrong with options that fit the schema, as a sentence; null when nothing is. */
  readonly problem: (options: unknown) => string | null
  /** What of it only the whole delivery can tell, as "who is missing"; null when a part tells all. */
  readonly needsWhole: (delivery: Delivery) => string | null
  /**
   * One finding or more, in an order that only the delivery decides. A rule that finds no problems says so in one
   * finding about all of them; nothing found at all counts as `unsure`.
   */
  readonly judge: (delivery: Delivery, options: unknown) => readonly DeliveryFinding[]
}

interface DeliveryRuleDefinition<S extends TSchema>
  extends Omit<DeliveryRule, 'scope' | 'options' | 'unasked' | 'problem' | 'needsWhole' | 'judge'> {
  readonly options: S
  readonly unasked?: (known: KnownBefore) => Static<S> | null
  readonly problem?: (options: Static<S>) => string | null
  readonly needsWhole?: (delivery: Delivery) => string | null
  readonly judge: (delivery: Delivery, options: Static<S>) => readonly DeliveryFinding[]
}

/** Ties a rule's judge to its options' schema; the spec loader has validated the options before `judge` runs. */
export function defineDeliveryRule<S extends TSchema>(definition: DeliveryRuleDefinition<S>): DeliveryRule {
  const { unasked = () => null, problem = () => null, needsWhole = () => null, judge, ...rest } = definition
  return {
    ...rest,
    scope: 'delivery',
    unasked,
    problem: (options) => problem(options as Static<S>),
    needsWhole,
    judge: (delivery, options) => judge(delivery, options as Static<S>),
  }
}

/** A rule of either kind, for what is common to both: the spec's schema, `explain`, the docs. */
export type AnyRule = Rule | DeliveryRule

/** Whether a rule runs on every file, also when the spec does not name it. */
export function alwaysRuns(rule: AnyRule): boolean {
  return !isDeliveryRule(rule) && rule.always !== undefined
}

export function isDeliveryRule(rule: AnyRule): rule is DeliveryRule {
  return 'scope' in rule
}
