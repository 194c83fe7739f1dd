import type { Report } from '../judge/report.ts'
import { isMiss } from '../judge/verdict.ts'
import type { DeliveryOutcome } from '../rules/contract/delivery-outcome.ts'
import { matrixLines } from './matrix-lines.ts'
import { type Shared, sharedFindings, type ToldFile } from './shared.ts'
import { type Short, shortened } from './short-list.ts'
import { toldIn, unjudgedFiles } from './told.ts'
import { type RuleLine, ruleLines } from './top.ts'

/** Everything that a report to be read has to tell, in its order, and what of it is told in short. */
export interface Telling {
  readonly rules: Short<RuleLine>
  readonly shared: readonly Shared[]
  /** Files by how they stand. */
  readonly sections: Readonly<Record<Standing, Section>>
  readonly whole: Cut<DeliveryOutcome>
  /** Whether `all` would tell more. */
  readonly isShort: boolean
}

/** Passing files have a section for their warnings. */
type Standing = 'fail' | 'unsure' | 'pass'

export interface Section {
  /** How many files stand so and have findings. */
  readonly files: number
  readonly told: Cut<Listed>
  /** How many of them have no findings but those told elsewhere, of many files or of the delivery. */
  readonly elsewhere: number
}

export interface Listed extends ToldFile {
  /** Whether no rule could be judged on it. */
  readonly unjudged: boolean
}

/** Those told in full, the worst first, and others by name alone. */
export interface Cut<T> {
  readonly inFull: readonly T[]
  readonly byName: readonly Named[]
}

/** What misses the same rules. */
export interface Named {
  readonly rules: string
  readonly names: readonly string[]
}

/** @param all whether every finding is to be told where it belongs, however many there are */
export function tellingOf(report: Report, all: boolean): Telling {
  const { ofFiles, ofWhole } = toldIn(report)
  const unjudged = unjudgedFiles(report)
  const files = report.summary.worst.map((file) => ({
    file,
    shown: ofFiles.get(file)?.filter(isMiss) ?? [],
    unjudged: unjudged.has(file),
  }))
  const { shared, left } = all ? { shared: [], left: files } : sharedFindings(files)
  const verdicts = new Map(report.files.map(({ file, verdict }) => [file, verdict]))
  const section = (standing: Standing) =>
    sectionOf(
      left.filter(({ file }) => verdicts.get(file) === standing),
      all,
    )
  const sections = { fail: section('fail'), unsure: section('unsure'), pass: section('pass') }
  const whole = cut(ofWhole.filter(isMiss), all, ({ rule, people, files }) => ({
    rules: rule,
    names: [...people, ...files],
  }))
  const cuts = [...Object.values(sections).map(({ told }) => told), whole]
  const { matrix } = report.delivery
  const isFolded = matrix !== null && matrixLines(matrix, all).length < matrix.rows.length
  const rules = shortened(ruleLines(report), all)
  const isShort =
    isFolded || rules.others.length > 0 || shared.length > 0 || cuts.some(({ byName }) => byName.length > 0)
  return { rules, shared, sections, whole, isShort }
}

function sectionOf(files: readonly Listed[], all: boolean): Section {
  const own = files.filter(({ shown, unjudged }) => shown.length > 0 || unjudged)
  const told = cut(own, all, ({ file, shown }) => ({
    rules: shown.map(({ rule }) => rule).join(', ') || 'not judged',
    names: [file],
  }))
  return { files: files.length, told, elsewhere: files.length - own.length }
}

function cut<T>(list: readonly T[], all: boolean, nameOf: (one: T) => Named): Cut<T> {
  const { first, others } = shortened(list, all)
  const groups = new Map<string, Set<string>>()
  for (const { rules, names } of others.map(nameOf)) {
    const group = groups.get(rules) ?? new Set()
    for (const name of names) group.add(name)
    groups.set(rules, group)
  }
  const byName = [...groups].map(([rules, names]) => ({ rules, names: [...names] }))
  return { inFull: first, byName: byName.sort((a, b) => b.names.length - a.names.length) }
}
