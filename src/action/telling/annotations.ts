import type { Report } from '../../judge/report.ts'
import { isMiss } from '../../judge/verdict.ts'
import { forWorkflowLog } from '../../report/safe.ts'
import type { Outcome } from '../../rules/contract/outcome.ts'
import { count, listed } from '../../text/quantity.ts'
import type { PlacedProblem } from '../standard/standard-problems.ts'
import { type AnnotationPlace, workflowCommand } from './workflow-command.ts'

// The runner shows 10 of each kind a step, and a composite action is one step (github.com/actions/toolkit,
// docs/problem-matchers.md, limitations); the tenth tells how many more there are.
const MOST = 9
// Sentences in one annotation; the summary has all.
const MOST_SENTENCES = 3

/** Where things lie, from the workspace on. */
export interface Places {
  /** A file of the report; null when it lies elsewhere. */
  ofFile(file: string): string | null
  /** The line of the roster on which a person stands, by the label; null when that is not known. */
  ofPerson(label: string): { readonly file: string; readonly line: number } | null
}

/** What a finding is about: a file, else a person, else the delivery as a whole. */
interface Subject {
  readonly file?: string
  readonly person?: string
}

/** What is wrong with one file or person, or with the delivery where neither is named. */
interface Annotation {
  readonly level: 'error' | 'warning'
  readonly about: Subject
  readonly title: string
  readonly message: string
  readonly weight: number
}

/**
 * Workflow commands that annotate the worst files, one a file: those that fail before those that are unsure, those
 * with more misses first. People without a file are annotated at their line of the roster. At most 9, and a notice on how
 * many more there are.
 */
export function annotations(report: Report, places: Places): string[] {
  const all = grouped(report).map(({ about, outcomes }) => annotation(about, outcomes))
  all.sort((a, b) => rank(a) - rank(b) || b.weight - a.weight)
  const lines = all.slice(0, MOST).map(({ level, about, title, message }) => {
    const place = placeOf(about, places)
    const whose = about.file === undefined ? '' : `${about.file}: `
    return workflowCommand(
      level,
      { title: forWorkflowLog(title), ...(place !== null && isPlain(place.file) && place) },
      forWorkflowLog(whose + message),
    )
  })
  return [
    ...lines,
    ...more(all.length, all.some(({ about }) => about.person !== undefined) ? 'finding' : 'file'),
  ]
}

function placeOf({ file, person }: Subject, places: Places): (AnnotationPlace & { file: string }) | null {
  if (person !== undefined) return places.ofPerson(person)
  const path = file === undefined ? null : places.ofFile(file)
  return path === null ? null : { file: path }
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
  const text = sentences.join(' ') || 'Nothing could be judged; see the log.'
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

interface Group {
  readonly about: Subject
  readonly outcomes: readonly Outcome[]
}

/** Misses that bind, by what they are about. */
function grouped({ files, delivery }: Report): Group[] {
  const groups = new Map<string, Group>()
  const add = (about: Subject, outcomes: readonly Outcome[]) => {
    const key = JSON.stringify(about)
    groups.set(key, { about, outcomes: [...(groups.get(key)?.outcomes ?? []), ...outcomes] })
  }
  const binds = (outcome: Outcome) => !outcome.advisory && isMiss(outcome)
  for (const outcome of delivery.outcomes.filter(binds)) {
    for (const file of outcome.files) add({ file }, [outcome])
    const [person] = outcome.people
    if (outcome.files.length === 0) add(person === undefined ? {} : { person }, [outcome])
  }
  for (const { file, verdict, outcomes } of files) {
    const binding = outcomes.filter(binds)
    if (binding.length > 0 || verdict === 'unsure') add({ file }, binding)
  }
  return [...groups.values()]
}

function annotation(about: Subject, outcomes: readonly Outcome[]): Annotation {
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
    about,
    title: `${failing.length > 0 ? 'Fails' : 'Unsure'}: ${names}`,
    message: sentences.join(' '),
    weight: told.length,
  }
}

function rank({ level }: Annotation): number {
  return level === 'error' ? 0 : 1
}
