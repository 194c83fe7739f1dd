import type { Person } from '../../people/person.ts'
import type { Roster } from '../../people/roster.ts'
import { endingOf, hasEnded, isExpected } from '../../people/roster-entry.ts'
import { RosterSetting } from '../../people/roster-setting.ts'
import { count, listed } from '../../text/quantity.ts'
import { quoted } from '../../text/quoted.ts'
import type { DeliveryFinding } from '../contract/delivery-outcome.ts'
import { type DeliveredFile, type Delivery, defineDeliveryRule } from '../contract/delivery-rule.ts'
import { byPerson } from '../judging/by-person.ts'
import { leaving } from './leaving.ts'
import { misspelledNames, PEOPLE_EXPECTED } from './misspelled-names.ts'

export const roster = defineDeliveryRule({
  id: 'roster',
  severity: 'label',
  dependsOn: 'export',
  text: {
    title: 'The portraits are of the people on the roster',
    measures:
      "The people whom the files are named after are compared with the rows of the roster, a CSV file: who is missing, who is not on it, and whose name is misspelled. A row with a reason in the `absent` column needs no portrait, nor does one whose day in the `left` or the `consent-until` column is over: that person's files are to be taken down.",
    why: 'A missing person is noticed only once the page is online; a portrait under a misspelled name is never matched to its person.',
    fix: 'Deliver the missing portraits or give the reason in the absent column; correct misspelled file names; add new people to the roster; take down the portraits of people who have left or no longer agree to be shown.',
    example: 'roster: staff.csv',
  },
  options: RosterSetting,
  unasked: ({ roster }) => roster?.file ?? null,
  needs: [],
  needsWhole: () => 'who is missing',
  judge(delivery) {
    const { roster } = delivery
    if (roster === null) return [unjudged('no roster was read')]
    if (delivery.people.every(({ fields }) => Object.keys(fields).length === 0))
      return [unjudged('the file names do not identify people; add a naming pattern to the spec')]
    const own = byPerson(delivery.files)
    const people = delivery.people.filter(({ label }) => !delivery.partial || own.has(label))
    const guessed = new Set(delivery.guesses.values())
    const byLabel = new Map(people.map((person) => [person.label, person]))
    const found = [
      ...people
        .filter(({ label }) => !guessed.has(label))
        .flatMap((person) => {
          const files = own.get(person.label) ?? []
          const guess = byLabel.get(delivery.guesses.get(person.label) ?? '')
          return guess
            ? [perhapsFinding(person, guess, files, roster)]
            : aboutPerson(person, files, delivery, roster)
        }),
      ...delivery.files.flatMap((file) => aboutFile(file, delivery)),
    ]
    return found.length > 0 ? found : [delivery.partial ? ALL_LISTED : complete(delivery)]
  },
})

function perhapsFinding(
  stranger: Person,
  { label, entry }: Person,
  files: readonly DeliveredFile[],
  roster: Roster,
): DeliveryFinding {
  return {
    people: [stranger.label, label],
    files: files.map(({ name }) => name.path),
    verdict: 'fail',
    measured: `perhaps ${quoted(label)}?`,
    expected: PEOPLE_EXPECTED,
    reason: `${quoted(stranger.label)} is not on the roster, but ${has(files.length)}. Is it ${quoted(label)} (line ${entry?.line ?? 0} of ${roster.file}), who has none?`,
    fix: `If so, rename the ${files.length === 1 ? 'file' : 'files'} after ${quoted(label)}. If not, add the person to the roster and deliver ${quoted(label)}.`,
  }
}

function aboutPerson(
  { label, entry }: Person,
  files: readonly DeliveredFile[],
  delivery: Delivery,
  roster: Roster,
): DeliveryFinding[] {
  const paths = files.map(({ name }) => name.path)
  const finding = { people: [label], files: paths, verdict: 'fail' as const, expected: PEOPLE_EXPECTED }
  if (entry === null) {
    return [
      {
        ...finding,
        measured: 'not on the roster',
        reason: `${quoted(label)} is not on the roster, but ${has(paths.length)}.`,
        fix: 'Add the person to the roster, or remove the files; if it is someone under another name, rename the files.',
      },
    ]
  }
  const place = `line ${entry.line} of ${roster.file}`
  const { today } = delivery
  if (files.length === 0) {
    if (!isExpected(entry, today)) return []
    return [
      {
        ...finding,
        measured: 'missing',
        reason: `${quoted(label)} (${place}) has no portrait in the delivery.`,
        fix: 'Deliver the portraits, or give the reason in the absent column.',
      },
    ]
  }
  const last = leaving({ label, entry, today, place }, paths)
  if (hasEnded(entry, today)) return last
  if (entry.absent !== null) {
    return [
      ...last,
      {
        ...finding,
        measured: 'absent, but delivered',
        reason: `${quoted(label)} is marked absent (${quoted(entry.absent)}, ${place}), but ${has(paths.length)}.`,
        fix: 'If the portraits are right, clear the absent entry; otherwise find out whose they are.',
      },
    ]
  }
  return [...last, ...misspelledNames(files, label, delivery)]
}

function aboutFile({ name, person }: DeliveredFile, { namesJudged }: Delivery): DeliveryFinding[] {
  if (person !== null) return []
  const told = namesJudged && name.problems.some(({ kind }) => kind === 'no-match')
  return [
    {
      people: [],
      files: [name.path],
      verdict: told ? 'skip' : 'unsure',
      measured: null,
      expected: PEOPLE_EXPECTED,
      reason: told
        ? `The name of ${quoted(name.path)} does not identify a person; see file-name.`
        : `The name of ${quoted(name.path)} does not identify a person; check by eye whose portrait it is.`,
    },
  ]
}

function complete({ people, today }: Delivery): DeliveryFinding {
  const namesOf = (some: readonly Person[]) => listed(some.map(({ label }) => quoted(label)))
  const ended = people.filter(({ entry }) => entry !== null && hasEnded(entry, today))
  const gone = ended.filter(({ entry }) => entry && endingOf(entry)?.cause === 'left')
  const withdrawn = ended.filter((person) => !gone.includes(person))
  const absent = people.filter((person) => person.entry?.absent != null && !ended.includes(person))
  const expected = people.length - absent.length - ended.length
  const notes = [
    ...(absent.length > 0 ? [`; marked absent: ${namesOf(absent)}`] : []),
    ...(gone.length > 0 ? [`; left: ${namesOf(gone)}`] : []),
    ...(withdrawn.length > 0 ? [`; no longer to be shown: ${namesOf(withdrawn)}`] : []),
  ]
  const subject =
    expected === 1 ? 'The one person expected is' : `All ${count(expected, 'person', 'people')} expected are`
  return {
    people: [],
    files: [],
    verdict: 'pass',
    measured: count(expected, 'person', 'people'),
    expected: PEOPLE_EXPECTED,
    reason: `${subject} in the delivery, and nobody else${notes.join('')}.`,
  }
}

const ALL_LISTED: DeliveryFinding = {
  ...{ people: [], files: [], verdict: 'pass', measured: null, expected: PEOPLE_EXPECTED },
  reason: 'All portraits are of people on the roster.',
}

function has(files: number): string {
  return files === 1 ? 'a portrait was delivered' : `${files} portraits were delivered`
}

function unjudged(why: string): DeliveryFinding {
  return {
    people: [],
    files: [],
    verdict: 'unsure',
    measured: null,
    expected: PEOPLE_EXPECTED,
    reason: `The people could not be compared with the roster: ${why}.`,
  }
}
