import type { Person } from '../../people/person.ts'
import { perhaps } from '../../people/resemblance.ts'
import type { Roster } from '../../people/roster.ts'
import { RosterSetting } from '../../people/roster-setting.ts'
import { count, listed } from '../../text/quantity.ts'
import { quoted } from '../../text/quoted.ts'
import type { DeliveryFinding } from '../contract/delivery-outcome.ts'
import { type DeliveredFile, type Delivery, defineDeliveryRule } from '../contract/delivery-rule.ts'
import { byPerson } from '../judging/by-person.ts'
import { renamesFix } from '../judging/rename-fix.ts'

export const roster = defineDeliveryRule({
  id: 'roster',
  text: {
    title: 'The portraits are of the people on the roster',
    measures:
      'The people whom the files are named after are compared with the rows of the roster, a CSV file: who is missing, who is not on it, and whose name is misspelled. A row with a reason in the `absent` column needs no portrait.',
    why: 'A missing person is noticed only once the page is online; a portrait under a misspelled name is never matched to its person.',
    fix: 'Deliver the missing portraits or give the reason in the column absent; correct misspelled file names; add new people to the roster.',
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
    const missing = people.filter(
      ({ label, entry }) => entry !== null && entry.absent === null && !own.has(label),
    )
    const guesses = guessesAt(delivery, missing)
    const guessed = new Set(guesses.values())
    const found = [
      ...people
        .filter((person) => !guessed.has(person))
        .flatMap((person) => {
          const files = own.get(person.label) ?? []
          const guess = guesses.get(person)
          return guess
            ? [perhapsFinding(person, guess, files, roster)]
            : aboutPerson(person, files, delivery, roster)
        }),
      ...delivery.files.flatMap((file) => aboutFile(file, delivery)),
    ]
    return found.length > 0 ? found : [delivery.partial ? ALL_LISTED : complete(delivery)]
  },
})

const EXPECTED = 'the people on the roster'

/** For strangers, whom of the missing they may be; nobody is the guess for two of them. */
function guessesAt({ people, roster }: Delivery, missing: readonly Person[]): ReadonlyMap<Person, Person> {
  const strangers = people.filter(({ entry }) => entry === null)
  const guesses = strangers.flatMap((stranger): [Person, Person][] => {
    const guess = perhaps(stranger.fields, missing, roster?.key ?? [])
    return guess ? [[stranger, guess]] : []
  })
  const times = (guess: Person) => guesses.filter(([, other]) => other === guess).length
  return new Map(guesses.filter(([, guess]) => times(guess) === 1))
}

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
    expected: EXPECTED,
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
  const finding = { people: [label], files: paths, verdict: 'fail' as const, expected: EXPECTED }
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
  if (entry.absent === null && files.length === 0) {
    return [
      {
        ...finding,
        measured: 'missing',
        reason: `${quoted(label)} (${place}) has no portrait in the delivery.`,
        fix: 'Deliver the portraits, or give the reason in the column absent.',
      },
    ]
  }
  if (entry.absent !== null && files.length > 0) {
    return [
      {
        ...finding,
        measured: 'absent, but delivered',
        reason: `${quoted(label)} is marked absent (${quoted(entry.absent)}, ${place}), but ${has(paths.length)}.`,
        fix: 'If the portraits are right, clear the absent entry; otherwise find out whose they are.',
      },
    ]
  }
  return misspelled(files, label, delivery)
}

/** The files that mean someone by a name that is not quite theirs, a finding for each way to write it. */
function misspelled(
  files: readonly DeliveredFile[],
  label: string,
  { namesJudged }: Delivery,
): DeliveryFinding[] {
  const byName = new Map<string, DeliveredFile[]>()
  for (const file of files) {
    if (!file.resemblance || (namesJudged && isToldByName(file))) continue
    const written = Object.values(file.resemblance.fields).map(quoted).join(' ')
    byName.set(written, [...(byName.get(written) ?? []), file])
  }
  return [...byName].map(([written, alike]) => {
    const by = alike[0]?.resemblance?.by ?? 'spelling'
    const renames = alike.flatMap(({ rename }) => rename ?? [])
    const exact = renames.length === alike.length
    return {
      people: [label],
      files: alike.map(({ name }) => name.path),
      verdict: 'fail',
      measured: `misspelled: ${written}`,
      expected: EXPECTED,
      reason: `${written} is not on the roster${DIFFERENCE[by]}; it most likely means ${quoted(label)}.`,
      fix: `${exact ? renamesFix(renames) : `Rename the file to match ${quoted(label)} on the roster.`} If it is someone else, add them to the roster.`,
      ...(exact && { renames }),
    }
  })
}

const DIFFERENCE = {
  case: ' with this capitalization',
  accents: ' with these accents',
  suffix: ' with that ending',
  spelling: '',
} as const

/** A field that misses its form is told by `file-name`, which knows the form. */
function isToldByName({ name, resemblance }: DeliveredFile): boolean {
  const told = name.problems.flatMap((problem) => (problem.kind === 'field' ? [problem.field] : []))
  return Object.keys(resemblance?.fields ?? {}).every((field) => told.includes(field))
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
      expected: EXPECTED,
      reason: told
        ? `The name of ${quoted(name.path)} does not identify a person; see file-name.`
        : `The name of ${quoted(name.path)} does not identify a person; check by eye whose portrait it is.`,
    },
  ]
}

function complete({ people }: Delivery): DeliveryFinding {
  const absent = people.filter(({ entry }) => entry?.absent != null)
  const expected = people.length - absent.length
  const but =
    absent.length === 0 ? '' : `; marked absent: ${listed(absent.map(({ label }) => quoted(label)))}`
  const subject =
    expected === 1 ? 'The one person expected is' : `All ${count(expected, 'person', 'people')} expected are`
  return {
    people: [],
    files: [],
    verdict: 'pass',
    measured: count(expected, 'person', 'people'),
    expected: EXPECTED,
    reason: `${subject} in the delivery, and nobody else${but}.`,
  }
}

const ALL_LISTED: DeliveryFinding = {
  ...{ people: [], files: [], verdict: 'pass', measured: null, expected: EXPECTED },
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
    expected: EXPECTED,
    reason: `The people could not be compared with the roster: ${why}.`,
  }
}
