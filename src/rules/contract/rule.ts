import type { Static, TSchema } from '@sinclair/typebox'
import type { FramingAsk } from '../../framing/ask.ts'
import type { Decodable } from '../../measure/schema/formats.ts'
import type { MeasurementGroup, Measurements } from '../../measure/schema/measurements.ts'
import type { NameReading } from '../../naming/name-reading.ts'
import type { Rename } from '../../naming/rename.ts'
import type { Resemblance } from '../../people/resemblance.ts'
import type { DeliveryFinding } from './delivery-outcome.ts'
import type { Saving } from './export-settings.ts'
import type { Finding } from './outcome.ts'
import type { Severity } from './severity.ts'
import type { Stage } from './stage.ts'

/** One file as the rules see it: plain facts, no pixels and no I/O. */
export interface Subject {
  readonly measured: Measurements
  readonly name: NameReading
  /** What is to become of the file when its name is wrong, seen together with all others; absent when nobody can tell. */
  readonly rename?: Rename | undefined
  /** Set when its name is not quite that of its person. */
  readonly resemblance?: Resemblance | null | undefined
  /** Whether all files of the delivery are judged together: what is said once of several is then left out of each. */
  readonly isTogether?: boolean
  /** Naming fields of the person on the roster whom the name means, even if it is misspelled; absent when nobody is meant. */
  readonly personFields?: Readonly<Record<string, string>> | undefined
}

/** The words of a rule, shown by `explain`, in the schema and in the docs. */
export interface RuleText {
  /** One line, no full stop: what the rule is about. */
  readonly title: string
  /** What is measured and how, in plain words. */
  readonly measures: string
  /** Why a client would ask for it. */
  readonly why: string
  /** How to fix a failure. */
  readonly fix: string
  /** A line or a few of YAML as it stands in a spec. */
  readonly example: string
}

export interface Rule {
  readonly id: string
  readonly severity: Severity
  readonly dependsOn: Stage
  readonly text: RuleText
  /** JSON Schema (draft-07) of the value that stands beside the rule's key in the spec. */
  readonly options: TSchema
  /** Set for rules that run even when the spec does not name them: the options they then run with. */
  readonly always?: unknown
  /** Measurement groups that the rule reads. */
  readonly needs: readonly MeasurementGroup[]
  /** What it reads beside them for some options only. */
  readonly alsoNeeds?: (options: unknown) => readonly MeasurementGroup[]
  /** What is wrong with options that fit the schema, as a sentence ("min is 12 and max is 6, ..."); null when nothing is. */
  readonly problem: (options: unknown) => string | null
  readonly judge: (subject: Subject, options: unknown) => Finding
  /** What it says once of several files that share a cause. */
  readonly together?: (files: readonly JudgedBy<unknown>[]) => readonly DeliveryFinding[]
  /** What the options ask of the framing, for rules that a crop can meet or that say something of the crop. */
  readonly framing?: (options: unknown) => FramingAsk
  /** The formats that the options let through, for rules that fail any other without looking at the picture. */
  readonly formats?: (options: unknown) => readonly Decodable[]
  /** How a file has to be saved so that it meets the options, for rules on what an export decides. */
  readonly saving?: (options: unknown) => Saving
}

/** A file with the options that a rule judges it by. */
interface JudgedBy<O> {
  readonly subject: Subject
  readonly options: O
}

interface RuleDefinition<S extends TSchema>
  extends Omit<
    Rule,
    'options' | 'alsoNeeds' | 'judge' | 'together' | 'problem' | 'always' | 'framing' | 'formats' | 'saving'
  > {
  readonly options: S
  readonly always?: Static<S>
  readonly alsoNeeds?: (options: Static<S>) => readonly MeasurementGroup[]
  readonly problem?: (options: Static<S>) => string | null
  readonly judge: (subject: Subject, options: Static<S>) => Finding
  readonly together?: (files: readonly JudgedBy<Static<S>>[]) => readonly DeliveryFinding[]
  readonly framing?: (options: Static<S>) => FramingAsk
  readonly formats?: (options: Static<S>) => readonly Decodable[]
  readonly saving?: (options: Static<S>) => Saving
}

/** Ties a rule's judge to its options' schema; the spec loader has validated the options before `judge` runs. */
export function defineRule<S extends TSchema>(definition: RuleDefinition<S>): Rule {
  const { problem = () => null, alsoNeeds, judge, together, framing, formats, saving, ...rest } = definition
  return {
    ...rest,
    problem: (options) => problem(options as Static<S>),
    judge: (subject, options) => judge(subject, options as Static<S>),
    ...(alsoNeeds && { alsoNeeds: (options: unknown) => alsoNeeds(options as Static<S>) }),
    ...(together && {
      together: (files: readonly JudgedBy<unknown>[]) => together(files as readonly JudgedBy<Static<S>>[]),
    }),
    ...(framing && { framing: (options: unknown) => framing(options as Static<S>) }),
    ...(formats && { formats: (options: unknown) => formats(options as Static<S>) }),
    ...(saving && { saving: (options: unknown) => saving(options as Static<S>) }),
  }
}
