import type { Change, Since } from '../judge/since.ts'
import { listed } from '../text/quantity.ts'
import { quoted } from '../text/quoted.ts'

const WORDS = { new: 'New', remaining: 'Remains', fixed: 'Fixed', notJudged: 'Not judged this time' } as const

// The JSON report has them all.
const MOST = 20

/** What has changed since an earlier report, in a sentence: "Since report.json: 1 new, 2 remain, 3 fixed". */
export function sinceSentence({ report, new: added, remaining, fixed, notJudged }: Since): string {
  const parts = [
    `${added.length} new`,
    `${remaining.length} ${remaining.length === 1 ? 'remains' : 'remain'}`,
    `${fixed.length} fixed`,
    ...(notJudged.length > 0 ? [`${notJudged.length} not judged this time`] : []),
  ]
  return `Since ${report}: ${parts.join(', ')}`
}

/** The changes, a line each, of each kind as many as can be read; what is new is told in full elsewhere. */
export function sinceLines(since: Since): string[] {
  const told = (['new', 'remaining', 'fixed', 'notJudged'] as const).flatMap((kind) => {
    const all = since[kind]
    const lines = all.slice(0, MOST).map((change) => `${WORDS[kind]}: ${aboutText(change)}`)
    return all.length <= MOST ? lines : [...lines, `${WORDS[kind]}: ${all.length - MOST} more`]
  })
  return told.length > 0 ? told : ['Nothing to fix then or now.']
}

function aboutText({ rule, files, people, verdict, advisory }: Change): string {
  const named = (files.length > 0 ? files : people).map(quoted)
  const weight = advisory ? ' (warning)' : verdict === 'unsure' ? ' (unsure)' : ''
  return `${rule}${named.length === 0 ? '' : `, ${listed(named)}`}${weight}`
}
