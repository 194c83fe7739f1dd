import { Type } from '@sinclair/typebox'
import type { Rename } from '../../naming/rename.ts'
import type { Person } from '../../people/person.ts'
import { hasEnded } from '../../people/roster-entry.ts'
import { count, listed } from '../../text/quantity.ts'
import { quoted } from '../../text/quoted.ts'
import type { DeliveryFinding } from '../contract/delivery-outcome.ts'
import { type DeliveredFile, type Delivery, defineDeliveryRule } from '../contract/delivery-rule.ts'
import { byPerson } from '../judging/by-person.ts'

export const variants = defineDeliveryRule({
  id: 'variants',
  severity: 'file',
  dependsOn: 'export',
  text: {
    title: 'Each person has every deliverable once',
    measures:
      'For each person, every deliverable of the spec exactly once. Without deliverables, each person has one portrait. People with no portrait at all, and those who have left or no longer agree to be shown, are left to the rule roster.',
    why: 'A person without a web portrait is missing from the web page; of two portraits for one place, chance decides which is used.',
    fix: 'Export what is missing from the same frame; of duplicates, keep only the approved one.',
    example: 'variants: all',
  },
  options: Type.Literal('all', {
    description: 'All deliverables of the spec. Also runs when a roster is given.',
  }),
  unasked: ({ roster }) => (roster === null ? null : 'all'),
  needs: ['checksum'],
  needsWhole: () => 'whether anyone lacks a deliverable',
  judge(delivery) {
    const { roster, today } = delivery
    const people = delivery.people.filter(({ entry }) =>
      entry === null ? roster === null : !hasEnded(entry, today),
    )
    const own = byPerson(delivery.files)
    const found = [
      ...people.flatMap((person) => aboutPerson(person, own.get(person.label) ?? [], delivery)),
      ...delivery.files.flatMap((file) => aboutFile(file, delivery)),
    ]
    if (found.length > 0) return found
    if (people.some(({ label }) => missingOf(own.get(label) ?? [], delivery).isTold))
      return [about([], [], 'skip', "Some names don't give their deliverable; see file-name.")]
    const complete = people.filter(({ label }) => own.has(label))
    if (complete.length === 0)
      return [about([], [], 'unsure', 'No file name identifies a person; check by eye.')]
    if (delivery.partial) return [about([], [], 'pass', 'Nobody has two portraits for one deliverable.')]
    return [
      about([], [], 'pass', `Each person with portraits (${complete.length}) has ${all(delivery)} once.`),
    ]
  },
})

function aboutPerson(
  { label }: Person,
  files: readonly DeliveredFile[],
  delivery: Delivery,
): DeliveryFinding[] {
  if (files.length === 0) return []
  const ordered = delivery.deliverables.length > 0 ? delivery.deliverables : [null]
  const { gone, mayBe, isTold } = missingOf(files, delivery)
  return [
    ...(gone.length > 0 && !isTold
      ? [
          about(
            [label],
            [],
            mayBe ? 'unsure' : 'fail',
            `${quoted(label)} has no portrait for ${listed(gone)}${mayBe ? `; a file whose name does not give its deliverable may be ${gone.length > 1 ? 'one of them' : 'it'}` : ''}.`,
            `Export ${listed(gone)} from the same frame as the other ${files.length === 1 ? 'file' : 'files'}.`,
          ),
        ]
      : []),
    ...ordered.flatMap((deliverable) => {
      // A copy that is to be deleted is told with its name, as is a misspelled deliverable whose place is taken.
      const same = files.filter(
        (file) =>
          (deliverable === null || file.name.deliverable === deliverable) &&
          !(file.rename && 'sameAs' in file.rename) &&
          !(deliverable !== null && isToldByName(file, delivery)),
      )
      if (same.length < 2) return []
      const paths = same.map(({ name }) => name.path)
      return [
        about(
          [label],
          paths,
          'fail',
          `${quoted(label)} has ${count(same.length, 'portrait')}${deliverable === null ? '' : ` for ${deliverable}`}: ${listed(paths.map(quoted))}.`,
          ...whatToKeep(same),
        ),
      ]
    }),
  ]
}

/** Copies of one file need no approval: the one nearest to the delivery's root stays. */
function whatToKeep(files: readonly DeliveredFile[]): [fix: string, renames?: Rename[]] {
  const [first, ...others] = files
    .toSorted((a, b) => depthOf(a) - depthOf(b))
    .map(({ name, measured }) => ({ path: name.path, sha256: measured.sha256 }))
  if (!first || first.sha256 === null || others.some(({ sha256 }) => sha256 !== first.sha256))
    return ['Remove all but the approved one.']
  return [
    `They are identical: keep ${quoted(first.path)} and delete ${listed(others.map(({ path }) => quoted(path)))}.`,
    others.map(({ path }) => ({ from: path, sameAs: first.path, by: 'bytes' })),
  ]
}

function depthOf({ name }: DeliveredFile): number {
  return name.path.split('/').length
}

/** The deliverables that somebody with files lacks. A file that tells none may be one of them, which `file-name` may tell. */
function missingOf(files: readonly DeliveredFile[], delivery: Delivery) {
  const { partial, deliverables } = delivery
  const lacks = (one: string) => !partial && !files.some(({ name }) => name.deliverable === one)
  const gone = deliverables.filter(lacks)
  const unknown = files.filter(({ name }) => name.deliverable === null)
  const told = unknown.filter((file) => isToldByName(file, delivery)).length
  return { gone, mayBe: unknown.length > 0, isTold: gone.length > 0 && told >= gone.length }
}

/** Whether `file-name` tells that a name does not give its deliverable, or misspells it. */
function isToldByName({ name }: DeliveredFile, { namesJudged }: Delivery): boolean {
  return namesJudged && name.problems.some(({ kind }) => kind === 'no-match' || kind === 'deliverable')
}

/** Files that can't be counted for any deliverable. */
function aboutFile(file: DeliveredFile, delivery: Delivery): DeliveryFinding[] {
  const { name } = file
  if (delivery.deliverables.length === 0 || name.deliverable !== null) return []
  if (isToldByName(file, delivery)) return []
  return [
    about(
      [],
      [name.path],
      'unsure',
      `The name of ${quoted(name.path)} does not give the deliverable; check by eye which one it is.`,
    ),
  ]
}

function all({ deliverables }: Delivery): string {
  return deliverables.length === 0 ? 'a portrait' : listed(deliverables)
}

function about(
  people: string[],
  files: string[],
  verdict: DeliveryFinding['verdict'],
  reason: string,
  fix?: string,
  renames?: Rename[],
): DeliveryFinding {
  return {
    people,
    files,
    verdict,
    measured: null,
    expected: 'every deliverable once',
    reason,
    ...(fix !== undefined && verdict === 'fail' && { fix }),
    ...(renames && { renames }),
  }
}
