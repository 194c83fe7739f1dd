import { readNames } from '../../../src/delivery/identify.ts'
import { parsePattern } from '../../../src/naming/naming.ts'
import { guessesAmong } from '../../../src/people/guesses.ts'
import { findPeople } from '../../../src/people/people.ts'
import { readRoster } from '../../../src/people/roster.ts'
import type { Delivery, DeliveryRule } from '../../../src/rules/contract/delivery-rule.ts'
import { GOOD } from '../judging/cases.ts'

const parsed = parsePattern('{deliverable}/{family}-{given}_{staff-id}.jpg', { 'staff-id': { digits: 5 } }, [
  'print',
  'web',
])
if ('problems' in parsed) throw new Error('The pattern is sound.')
const { pattern: NAMING } = parsed

export const STAFF = `family,given,staff-id,absent
Lund,Bjørn,00990,
Nair,Priya,15388,
Pham,Linh,17001,on leave
`

/** Both files of Lund and of Nair, who are all that is expected. */
export const COMPLETE: readonly string[] = [
  'print/Lund-Bjørn_00990.jpg',
  'print/Nair-Priya_15388.jpg',
  'web/Lund-Bjørn_00990.jpg',
  'web/Nair-Priya_15388.jpg',
]

/** A delivery of flawless pictures by the paths of its files; with the roster, unless told otherwise. */
export function deliveryOf(
  paths: readonly string[],
  staff: string | null = STAFF,
  changes: Partial<Delivery> = {},
): Delivery {
  const deliverables = ['print', 'web']
  const read = staff === null ? null : readRoster({ file: 'staff.csv', text: staff }, NAMING)
  if (read && 'problems' in read) throw new Error(JSON.stringify(read.problems))
  const roster = read?.roster ?? null
  const found = paths.map((file) => ({ file, path: `/delivery/${file}` }))
  const names = readNames(found, NAMING, deliverables)
  const all = findPeople(names, NAMING, roster)
  const { people, attributions } = all
  const { today = '2026-11-25' } = changes
  const files = names.map((name, index) => {
    const { person = null, resemblance = null } = attributions[index] ?? {}
    return { name, person, resemblance, settled: [], fileCrop: null, measured: { ...GOOD, file: name.path } }
  })
  return {
    files,
    people,
    deliverables,
    roster,
    guesses: guessesAmong(all, roster, today),
    today,
    gallery: null,
    partial: false,
    namesJudged: true,
    ...changes,
  }
}

/** What a rule finds, in a line each: "fail Lund Bjørn 00990 [web/a.jpg]: reason fix". */
export function linesOf(rule: DeliveryRule, delivery: Delivery, options: unknown): string[] {
  return rule
    .judge(delivery, options)
    .map(({ verdict, people, files, reason, fix = '' }) =>
      `${verdict} ${people.join(', ')} [${files.join(', ')}]: ${reason} ${fix}`.trim(),
    )
}
