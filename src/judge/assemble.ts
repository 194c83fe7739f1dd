import type { Measurements } from '../measure/schema/measurements.ts'
import type { NameReading } from '../naming/name-reading.ts'
import { guessesAmong } from '../people/guesses.ts'
import { findPeople } from '../people/people.ts'
import type { DeliveredFile, Delivery } from '../rules/contract/delivery-rule.ts'
import type { Outcome } from '../rules/contract/outcome.ts'
import { DELIVERY_RULES } from '../rules/delivery-index.ts'
import { RULES } from '../rules/index.ts'
import { Waivers } from '../waivers/apply.ts'
import { settledCauses } from './causes.ts'
import { fileCropOf } from './crop-advice.ts'
import { judgeFile } from './judge.ts'
import { judgeDelivery, untoldByPart } from './judge-delivery.ts'
import { matrixOf } from './matrix.ts'
import type { Part } from './part.ts'
import { FILE_NAME, planFile, runs } from './plan.ts'
import { renamesOf } from './renames.ts'
import { buildReport, type JudgedFile, type Report } from './report.ts'
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
}

/** Judges what was measured, the files one by one and the delivery as a whole, grants waivers, and sums up. */
export function assembleReport(run: Run, standard: Standard): Report {
  const { spec } = standard
  const delivery = deliveryOf(run, standard)
  const paths = delivery.files.map(({ name }) => name.path)
  const waivers = new Waivers(standard.waivers, run.today, delivery.people, paths)
  const files = delivery.files.map((file): JudgedFile => {
    const { name, measured, person } = file
    const about = aboutFiles([file], [])
    const outcomes = judgeFile(file, spec, RULES).map((outcome) => waivers.grant(outcome, about))
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

function deliveryOf({ files, part, partial = false, today }: Run, standard: Standard): Delivery {
  const { spec, roster } = standard
  const names = files.map(({ name }) => name)
  const found = findPeople(names, spec.naming, roster)
  const { people, attributions } = found
  const delivered = files.map((file, index): DeliveredFile => {
    const attribution = attributions[index]
    if (!attribution) throw new Error(`Nobody looked whose portrait ${file.name.path} is.`)
    return { ...file, ...attribution, settled: [], fileCrop: null }
  })
  const onRoster = new Map(people.flatMap(({ label, fields, entry }) => (entry ? [[label, fields]] : [])))
  const binding = bindingRules(standard)
  // A part does not know which names the other parts have.
  const renames = part ? new Map<string, never>() : renamesOf(delivered, people, spec)
  return {
    files: delivered.map((file) => ({
      ...file,
      rename: renames.get(file.name.path),
      isTogether: part === undefined,
      personFields: onRoster.get(file.person ?? ''),
    })),
    people,
    ...knownBy(standard),
    partial,
    guesses: partial ? new Map() : guessesAmong(found, roster, today),
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
function withoutSignature({ signature: _, ...measured }: Measurements): Measurements {
  return measured
}
