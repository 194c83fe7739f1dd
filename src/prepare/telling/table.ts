import { count, listed } from '../../text/quantity.ts'
import { sizeText } from '../../text/size.ts'
import type { Prepared, PreparedFile, UnmadeFile } from '../ledger/prepared.ts'
import type { PreparePlan } from '../planning/plan.ts'
import { madeFacts, plannedFacts } from './facts.ts'

/** What was done, master by master. */
export function preparedLines(prepared: Prepared): string[] {
  const { files, unmade } = prepared
  const told = files.map((one) => ({
    master: one.master.file,
    lines: [
      `${stateOf(one)}  ${one.file}, ${sizeText(one.making)}`,
      ...[madeFacts(one.making).join('; '), ...one.reasons, ...(one.doubts ?? [])].map(below),
    ],
  }))
  return [...byMaster([...told, ...unmade.map(unmadeLines)]), '', preparedSentence(prepared)]
}

/** What would be done, master by master. */
export function planLines(plan: PreparePlan): string[] {
  const told = plan.files.map((one) => ({
    master: one.master.found.file,
    lines: [
      `${'to make'.padEnd(WIDTH)}  ${one.file}, ${sizeText(one.size)}`,
      below(plannedFacts(one).join('; ')),
    ],
  }))
  const unmade = plan.unmade.map(({ master, ...rest }) => unmadeLines({ ...rest, master: master.found.file }))
  return [...byMaster([...told, ...unmade]), '', `${planSentence(plan)} Nothing was written.`]
}

/** What was done, in a sentence. */
export function preparedSentence({ files, unmade }: Prepared): string {
  const delivered = files.filter(({ state }) => state === 'delivered')
  const heldBack = files.length - delivered.length
  const now = delivered.filter(({ made }) => made === 'now').length
  const unsure = delivered.filter(({ doubts = [] }) => doubts.length > 0).length
  const notes = [`${now} made now`, ...(unsure > 0 ? [`${unsure} unsure: check by eye`] : [])]
  const parts = [
    `${count(delivered.length, 'file')} delivered${delivered.length > 0 ? ` (${notes.join(', ')})` : ''}`,
    ...(heldBack > 0 ? [`${heldBack} held back`] : []),
    ...unmadeParts(unmade, 'not made'),
  ]
  return `${listed(parts)}.`
}

/** What would be done, in a sentence. */
export function planSentence({ files, unmade }: PreparePlan): string {
  return `${listed([`${count(files.length, 'file')} would be made`, ...unmadeParts(unmade, "can't be made")])}.`
}

function unmadeParts(unmade: readonly Pick<UnmadeFile, 'kind'>[], refusal: string): string[] {
  const questions = unmade.filter(({ kind }) => kind === 'question').length
  const refused = unmade.length - questions
  return [
    ...(refused > 0 ? [`${refused} ${refusal}`] : []),
    ...(questions > 0 ? [`${count(questions, 'question')} to answer`] : []),
  ]
}

interface Told {
  readonly master: string
  readonly lines: readonly string[]
}

/** Columns of the word that says what becomes of a file. */
const WIDTH = 'held back'.length

function byMaster(told: readonly Told[]): string[] {
  const groups = new Map<string, string[]>()
  for (const { master, lines } of told) groups.set(master, [...(groups.get(master) ?? []), ...lines])
  return [...groups].flatMap(([master, lines]) => [master, ...lines.map((line) => `  ${line}`)])
}

function stateOf({ state, made }: PreparedFile): string {
  const word = state === 'held-back' ? 'held back' : made === 'now' ? 'made' : 'unchanged'
  return word.padEnd(WIDTH)
}

function unmadeLines({ master, deliverable, kind, reason }: UnmadeFile): Told {
  const word = kind === 'question' ? 'question' : 'not made'
  return {
    master,
    lines: [`${word.padEnd(WIDTH)}  ${deliverable === null ? reason : `${deliverable}: ${reason}`}`],
  }
}

function below(text: string): string {
  return `${' '.repeat(WIDTH)}  ${text}`
}
