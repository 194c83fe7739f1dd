import { findingsByFile, type Report } from '../judge/report.ts'
import { isWarning } from '../judge/verdict.ts'
import type { Outcome } from '../rules/contract/outcome.ts'
import { grouped } from './grouped.ts'
import { forHtml } from './safe.ts'
import { extendsNote } from './sentences.ts'
import { unjudgedFiles } from './told.ts'

export interface JunitOptions {
  /** When the portraits were checked. */
  readonly at: Date
}

/**
 * The report as JUnit results in the form of Apache Ant's task: a suite a portrait, a test case a rule,
 * those over the delivery that name the portrait among them; many people who are missing are one case. A miss is a
 * failure; an unsure outcome is one in a strict run, and else skipped with its reason, as are warnings, accepted
 * and known misses and rules that do not apply: never a pass. Times are 0, since rules share their measurements.
 */
export function junit(report: Report, { at }: JunitOptions): string {
  // Ant's form has neither a zone nor fractions: UTC is meant.
  const timestamp = at.toISOString().slice(0, 19)
  const whole = wholeSuite(report)
  const findings = findingsByFile(report)
  const unjudged = unjudgedFiles(report)
  const suites = [
    ...(whole ? [whole] : []),
    ...report.files.map((file) => {
      const cases = findings.get(file.file)?.map((outcome) => caseOf(outcome, report.strict)) ?? []
      const all = unjudged.has(file.file) ? [...cases, unjudgedCase(report.strict)] : cases
      return { name: file.file, group: file.deliverable ?? 'portraits', cases: all }
    }),
  ].map((one, id) => suiteText(one, id, timestamp, report))
  return `<?xml version="1.0" encoding="UTF-8"?>\n<testsuites>\n${suites.join('')}</testsuites>\n`
}

interface Suite {
  readonly name: string
  readonly group: string
  readonly cases: readonly Case[]
}

/** What is said of the delivery and of no file of the report; null when nothing is. */
function wholeSuite({ delivery, files, strict }: Report): Suite | null {
  const known = new Set(files.map(({ file }) => file))
  const outcomes = grouped(
    delivery.outcomes.filter((outcome) => !outcome.files.some((file) => known.has(file))),
  )
  if (outcomes.length === 0) return null
  const cases = outcomes.map((outcome) => caseOf(outcome, strict))
  return { name: 'the whole delivery', group: 'delivery', cases }
}

function suiteText({ name, group, cases }: Suite, id: number, timestamp: string, { spec }: Report): string {
  const having = (kind: Case['kind']) => cases.filter((one) => one.kind === kind).length
  const attributes = {
    name,
    package: group,
    id,
    timestamp,
    // The name of the machine is nobody's business.
    hostname: 'localhost',
    tests: cases.length,
    failures: having('failure'),
    errors: 0,
    skipped: having('skipped'),
    time: 0,
  }
  const properties = `<properties><property${attributesText({ name: 'spec', value: `${spec.brand}, version ${spec.version}${extendsNote(spec)}` })}/></properties>`
  const rows = cases.map((one) => `    ${caseText(one, name)}\n`).join('')
  return `  <testsuite${attributesText(attributes)}>\n    ${properties}\n${rows}    <system-out/>\n    <system-err/>\n  </testsuite>\n`
}

interface Case {
  readonly rule: string
  readonly kind: 'pass' | 'failure' | 'skipped'
  readonly verdict: Outcome['verdict']
  readonly message: string
}

function unjudgedCase(strict: boolean): Case {
  const message = 'No rule could be judged on this file.'
  return { rule: 'verdict', kind: strict ? 'failure' : 'skipped', verdict: 'unsure', message }
}

function caseOf(outcome: Outcome, strict: boolean): Case {
  const { rule, verdict } = outcome
  return { rule, kind: kindOf(outcome, strict), verdict, message: messageOf(outcome) }
}

function kindOf({ verdict, advisory, waiver, known }: Outcome, strict: boolean): Case['kind'] {
  if (verdict === 'pass') return 'pass'
  if (advisory || waiver || known || verdict === 'skip') return 'skipped'
  return verdict === 'fail' || strict ? 'failure' : 'skipped'
}

function messageOf(outcome: Outcome): string {
  const { waiver } = outcome
  const sentences = [outcome.reason, ...(outcome.fix === undefined ? [] : [outcome.fix])].join(' ')
  if (waiver)
    return `Exception approved by ${waiver.approvedBy} until ${waiver.until} (${waiver.reason}): ${sentences}`
  if (outcome.known) return `Known before this change: ${sentences}`
  return isWarning(outcome) ? `Warning: ${sentences}` : sentences
}

function caseText({ rule, kind, verdict, message }: Case, file: string): string {
  const opening = `testcase${attributesText({ name: rule, classname: file, time: 0 })}`
  switch (kind) {
    case 'pass':
      return `<${opening}/>`
    case 'failure':
      return `<${opening}><failure${attributesText({ type: verdict, message })}>${forHtml(message)}</failure></testcase>`
    case 'skipped':
      return `<${opening}><skipped${attributesText({ message })}/></testcase>`
  }
}

function attributesText(attributes: Readonly<Record<string, string | number>>): string {
  return Object.entries(attributes)
    .map(([name, value]) => ` ${name}="${forHtml(String(value))}"`)
    .join('')
}
