import type { Report } from '../../judge/report.ts'
import { isMiss } from '../../judge/verdict.ts'
import { forWorkflowLog } from '../../report/safe.ts'
import type { Outcome } from '../../rules/contract/outcome.ts'
import { count, listed } from '../../text/quantity.ts'
import type { PlacedProblem } from '../standard/standard-problems.ts'
import { workflowCommand } from './workflow-command.ts'

// The runner shows 10 of each kind a step, and a composite action is one step (github.com/actions/toolkit,
// docs/problem-matchers.md, limitations); the tenth tells how many more there are.
const MOST = 9
// Sentences in one annotation; the summary has all.
const MOST_SENTENCES = 3

/** What is wrong with one file, or with the delivery where no file is named. */
interface Annotation {
  readonly level: 'error' | 'warning'
  readonly file: string | null
  readonly title: string
  readonly message: string
  readonly weight: number
}

/**
 * Workflow commands that annotate the worst files, one a file: those that fail before those that are unsure, those
 * with more misses first. At most 9, and a notice on how many more there are.
 * @param locate where a file of the report lies from the workspace on; null when it lies elsewhere
 */
export function annotations(report: Report, locate: (file: string) => string | null): string[] {
  const all = [...grouped(report)].map(([file, outcomes]) => annotation(file, outcomes))
  all.sort((a, b) => rank(a) - rank(b) || b.weight - a.weight)
  const lines = all.slice(0, MOST).map(({ level, file, title, message }) => {
    const place = file === null ? null : locate(file)
    const whose = file === null ? '' : `${file}: `
    return workflowCommand(
      level,
      { title: forWorkflowLog(title), ...(place !== null && isPlain(place) && { file: place }) },
      forWorkflowLog(whose + message),
    )
  })
  return [...lines, ...more(all.length, 'file')]
}

/** Workflow commands that annotate what is wrong with the spec, the roster or the waivers, at its line and column. */
export function problemAnnotations(
  problems: readonly PlacedProblem[],
  locate: (file: string) => string | null,
): string[] {
  const lines = problems.slice(0, MOST).map(({ file, line, column, message }) => {
    const place = locate(file)
    return workflowCommand(
      'error',
      {
        title: 'Nothing was judged',
        ...(place !== null &&
          isPlain(place) && { file: place, line, ...(column !== undefined && { col: column }) }),
      },
      forWorkflowLog(`${file}:${line}${column === undefined ? '' : `:${column}`}: ${message}`),
    )
  })
  return [...lines, ...more(problems.length, 'problem')]
}

/** One workflow command for trouble that has no place. */
export function troubleAnnotation(sentences: readonly string[]): string {
  const text = sentences.join(' ') || 'Nothing could be judged; the log says why.'
  return workflowCommand('error', { title: 'Nothing was judged' }, forWorkflowLog(text))
}

function more(all: number, noun: string): string[] {
  if (all <= MOST) return []
  const rest = `${count(all - MOST, `more ${noun}`)} in the summary.`
  return [workflowCommand('notice', {}, rest)]
}

/** A name that would not come out as it is can't be pointed at; the message tells it. */
function isPlain(path: string): boolean {
  return forWorkflowLog(path.replaceAll(':', '')) === path.replaceAll(':', '')
}

/** Misses that bind, by the file they are about; those about no file, or one of another run, under null. */
function grouped({ files, delivery }: Report): Map<string | null, Outcome[]> {
  const groups = new Map<string | null, Outcome[]>()
  const add = (file: string | null, outcome: Outcome) => {
    if (!outcome.advisory && isMiss(outcome)) groups.set(file, [...(groups.get(file) ?? []), outcome])
  }
  for (const outcome of delivery.outcomes) {
    const named = outcome.files.length > 0 ? outcome.files : [null]
    for (const file of named) add(file, outcome)
  }
  for (const { file, outcomes } of files) for (const outcome of outcomes) add(file, outcome)
  for (const { file, verdict } of files) if (verdict === 'unsure' && !groups.has(file)) groups.set(file, [])
  return groups
}

function annotation(file: string | null, outcomes: readonly Outcome[]): Annotation {
  const failing = outcomes.filter(({ verdict }) => verdict === 'fail')
  const told = failing.length > 0 ? failing : outcomes
  const sentences = told
    .slice(0, MOST_SENTENCES)
    .map(({ reason, fix }) => (fix === undefined ? reason : `${reason} ${fix}`))
  if (told.length === 0) sentences.push('No rule could be judged on this file; check by eye.')
  const rest = outcomes.length - Math.min(told.length, MOST_SENTENCES)
  if (rest > 0) sentences.push(`And ${rest} more in the summary.`)
  const rules = [...new Set(told.map(({ rule }) => rule))]
  const names = listed(rules.slice(0, MOST_SENTENCES)) || 'not judged'
  return {
    level: failing.length > 0 ? 'error' : 'warning',
    file,
    title: `${failing.length > 0 ? 'Fails' : 'Unsure'}: ${names}`,
    message: sentences.join(' '),
    weight: told.length,
  }
}

function rank({ level }: Annotation): number {
  return level === 'error' ? 0 : 1
}
