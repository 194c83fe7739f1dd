import type { Measurements } from '../measure/schema/measurements.ts'
import type { NameReading } from '../naming/name-reading.ts'
import { guessesAmong } from '../people/guesses.ts'
import type { DeliveredFile, Delivery } from '../rules/contract/delivery-rule.ts'
import type { Outcome } from '../rules/contract/outcome.ts'
import { DELIVERY_RULES } from '../rules/delivery-index.ts'
import { RULES } from '../rules/index.ts'
import { Waivers } from '../waivers/apply.ts'
import { settledCauses } from './causes.ts'
import { fileCropOf } from './crop-advice.ts'
import { type EarlyOutcomes, namedFiles } from './early.ts'
import { judgeFile } from './judge.ts'
import { judgeDelivery, untoldByPart } from './judge-delivery.ts'
import { matrixOf } from './matrix.ts'
import type { Part } from './part.ts'
import { FILE_NAME, planFile, runs } from './plan.ts'
import { renamesOf } from './renames.ts'
import { buildReport, type JudgedFile, type Report } from './report.ts'
import { SharedOutcomes } from './shared-outcomes.ts'
import { knownBy, type Standard } from './standard.ts'
import { byFile, fileVerdict } from './verdict.ts'

/** What was measured, and how it is to be reported. */
export interface Run {
  readonly tool: Report['tool']
  readonly strict: boolean
  /** The day on which the delivery is judged and waivers are to hold, as 2027-03-31 (UTC). */
  readonly today: string
  readonly left: Report['left']
  /** By code point of the paths. */
  readonly files: readonly { readonly name: NameReading; readonly measured: Measurements }[]
  /** Set when this is a part of a delivery, which then is not judged as a whole. */
  readonly part?: Part
  /** Whether these are only some of the files, which are judged without the others. */
  readonly partial?: boolean
  /** Whether the report is to tell in words what passes; true unless told. */
  readonly detailed?: boolean
  /** What was judged of just these files while they were measured. */
  readonly early?: EarlyOutcomes
}

/** Judges what was measured, the files one by one and the delivery as a whole, grants waivers, and sums up. */
export function assembleReport(run: Run, standard: Standard): Report {
  const { spec } = standard
  const delivery = deliveryOf(run, standard)
  const paths = delivery.files.map(({ name }) => name.path)
  const waivers = new Waivers(standard.waivers, run.today, delivery.people, paths)
  const early = run.early?.finish()
  const shared = new SharedOutcomes(run.detailed)
  const files = delivery.files.map((file): JudgedFile => {
    const { name, measured, person } = file
    const known = file.rename === undefined ? early?.get(name.path) : undefined
    const own = known ?? shared.share(judgeFile(file, spec, RULES))
    const about = standard.waivers.length > 0 ? aboutFiles([file], []) : null
    const outcomes = about ? own.map((outcome) => waivers.grant(outcome, about)) : own
    return { name, person, outcomes, measured: run.part ? measured : withoutSignature(measured) }
  })
  const { tool, strict, left, part } = run
  if (part) return buildReport({ tool, spec, strict, left, files, part })
  const judged = delivery.files.map((file, index) => withOutcomes(file, files[index]?.outcomes ?? []))
  const byPath = new Map(delivery.files.map((file) => [file.name.path, file]))
  const whole = { ...delivery, files: judged }
  const outcomes = judgeDelivery(whole, spec, DELIVERY_RULES, RULES).map((outcome) => {
    const named = outcome.files.flatMap((path) => byPath.get(path) ?? [])
    return waivers.grant(outcome, aboutFiles(named, outcome.people))
  })
  const about = byFile(outcomes)
  const verdicts = new Map(
    files.map(({ name: { path }, outcomes: own }) => [path, fileVerdict(own, about.get(path) ?? [])]),
  )
  // Of a part nobody can tell who has what.
  const matrix = delivery.partial ? null : matrixOf(delivery, verdicts)
  const partial = delivery.partial && { notJudged: untoldByPart(delivery, spec, DELIVERY_RULES) }
  return buildReport({
    ...{ tool, spec, strict, left, files },
    delivery: { outcomes, matrix },
    // What an exception covers may be among the files that are not there.
    waivers: waivers.report().filter(({ state }) => !partial || (state !== 'unused' && state !== 'absent')),
    ...(partial && { partial }),
  })
}

function deliveryOf({ files, part, partial = false, today, early }: Run, standard: Standard): Delivery {
  const { spec, roster } = standard
  const names = files.map(({ name }) => name)
  const named = early?.named ?? namedFiles(names, standard, part === undefined)
  const { people } = named.people
  // A part does not know which names the other parts have.
  const renames = part ? new Map<string, never>() : renamesOf(files, named.people, spec)
  const delivered = files.map(({ name, measured }, index): DeliveredFile => {
    const file = named.files[index]
    if (file?.name !== name) throw new Error(`${name.path} was judged early among other files.`)
    const { person, resemblance, isTogether, personFields } = file
    const rename = renames.get(name.path)
    const known = { name, measured, person, resemblance, isTogether, personFields, rename }
    return { settled: [], fileCrop: null, ...known }
  })
  const binding = bindingRules(standard)
  return {
    files: delivered,
    people,
    ...knownBy(standard),
    partial,
    guesses: partial ? new Map() : guessesAmong(named.people, roster, today),
    today,
    namesJudged: spec.naming !== null && binding.has(FILE_NAME),
  }
}

function withOutcomes(file: DeliveredFile, outcomes: readonly Outcome[]): DeliveredFile {
  return {
    ...file,
    settled: settledCauses(outcomes, file.measured),
    fileCrop: fileCropOf(outcomes, RULES),
  }
}

/** The rules that any file must meet, whatever its deliverable: what they report, others need not. */
function bindingRules({ spec }: Standard): ReadonlySet<string> {
  const plan = planFile({ name: { deliverable: null }, readable: true }, spec, RULES)
  return new Set(plan.filter((planned) => runs(planned) && !planned.advisory).map(({ rule }) => rule.id))
}

function aboutFiles(files: readonly DeliveredFile[], people: readonly string[]) {
  return {
    files: files.map(({ name }) => name.path),
    people: [...new Set([...people, ...files.map(({ person }) => person)])],
    unreadable: files.some(({ measured }) => measured.fault !== null),
  }
}

/** A signature is made from a face: it is needed to compare pictures and is not kept. */
function withoutSignature(all: Measurements): Measurements {
  if (!('signature' in all)) return all
  const { signature: _, ...measured } = all
  return measured
}
