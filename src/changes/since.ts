import type { Report } from '../judge/report.ts'
import type { Change, Since } from '../judge/since.ts'
import { isMiss } from '../judge/verdict.ts'
import type { Outcome } from '../rules/contract/outcome.ts'
import { matched } from './matched.ts'
import { movedFiles, replacedFiles } from './moved-files.ts'

/** Which files were looked at: all; `only` some, with the delivery as a whole; or a part without the others. */
export type Looked = 'all' | 'only' | 'part'

/**
 * What has changed since an earlier report: a finding is the same when it is by the same rule about the same files and
 * people. A file under another name is the same when its content is, or when it alone takes the other's place.
 * @param name of the earlier report's file
 */
export function changesSince(now: Report, before: Report, name: string, looked: Looked): Since {
  const moved = (looked === 'all' ? replacedFiles : movedFiles)(now, before)
  const here = missesOf(now)
  const there = missesOf(before).map((one) => ({
    ...one,
    files: one.files.map((file) => moved.get(file) ?? file),
  }))
  const pairs = matched(here, there)
  const paired = new Set(pairs.values())
  const gone = there.filter((one) => !paired.has(one))
  const wasJudged = judgedIn(now, looked)
  return {
    report: name,
    new: here.filter((one) => !pairs.has(one)).map(changeOf),
    remaining: here.filter((one) => pairs.has(one)).map(changeOf),
    fixed: gone.filter(wasJudged).map(changeOf),
    notJudged: gone.filter((one) => !wasJudged(one)).map(changeOf),
  }
}

interface Miss extends Change {
  /** Whether a rule on single files tells it. */
  readonly isOfFile: boolean
}

function missesOf({ files, delivery }: Report): Miss[] {
  const open = (outcomes: readonly Outcome[]) => outcomes.filter(isMiss)
  const brief = ({ rule, verdict, advisory, reason }: Outcome) => ({
    ...{ rule, advisory, reason },
    verdict: verdict === 'fail' ? ('fail' as const) : ('unsure' as const),
  })
  return [
    ...files.flatMap(({ file, outcomes }) =>
      open(outcomes).map((outcome) => ({ ...brief(outcome), files: [file], people: [], isOfFile: true })),
    ),
    ...delivery.outcomes.filter(isMiss).map((outcome) => ({
      ...brief(outcome),
      files: outcome.files,
      people: outcome.people,
      isOfFile: false,
    })),
  ]
}

function changeOf({ isOfFile: _, ...change }: Miss): Change {
  return change
}

/** Tells whether what an earlier report says was judged again: its rule answered, on files and people that were looked at. */
function judgedIn(now: Report, looked: Looked): (miss: Miss) => boolean {
  const files = new Map(now.files.map((one) => [one.file, one]))
  const people = new Set(now.files.flatMap(({ person }) => person ?? []))
  const answers = (outcomes: readonly Outcome[], wanted: string) =>
    outcomes.some(({ rule, verdict }) => rule === wanted && verdict !== 'skip')
  return ({ rule, isOfFile, files: named, people: whom }) => {
    if (isOfFile) {
      const file = files.get(named[0] ?? '')
      return file ? answers(file.outcomes, rule) : looked === 'all'
    }
    const isHere = named.every((file) => files.has(file)) && whom.every((person) => people.has(person))
    return (looked !== 'part' || isHere) && answers(now.delivery.outcomes, rule)
  }
}
