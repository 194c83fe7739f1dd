import { Type } from '@sinclair/typebox'
import type { Person } from '../../people/person.ts'
import { count, listed } from '../../text/quantity.ts'
import { quoted } from '../../text/quoted.ts'
import type { DeliveryFinding } from '../contract/delivery-outcome.ts'
import { type DeliveredFile, type Delivery, defineDeliveryRule } from '../contract/delivery-rule.ts'
import { byPerson } from '../judging/by-person.ts'

export const variants = defineDeliveryRule({
  id: 'variants',
  text: {
    title: 'Each person has every deliverable once',
    measures:
      'For each person, every deliverable of the spec exactly once. Without deliverables, each person has one portrait. People with no portrait at all are left to the rule roster.',
    why: 'A person without a web portrait is missing from the web page; of two portraits for one place, chance decides which is used.',
    fix: 'Export what is missing from the same frame; of duplicates, keep only the approved one.',
    example: 'variants: all',
  },
  options: Type.Literal('all', {
    description: 'All deliverables of the spec. Also runs when a roster is given.',
  }),
  unasked: ({ roster }) => (roster === null ? null : 'all'),
  needs: [],
  needsWhole: () => 'whether anyone lacks a deliverable',
  judge(delivery) {
    const people = delivery.people.filter(({ entry }) => delivery.roster === null || entry !== null)
    const own = byPerson(delivery.files)
    const found = [
      ...people.flatMap((person) => aboutPerson(person, own.get(person.label) ?? [], delivery)),
      ...delivery.files.flatMap((file) => aboutFile(file, delivery)),
    ]
    if (found.length > 0) return found
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
  const missing = ordered.filter((name) => !files.some((file) => file.name.deliverable === name))
  // A file that tells no deliverable may be the one that is missing.
  const unknown = files.filter(({ name }) => name.deliverable === null)
  const mayBe = delivery.deliverables.length > 0 && unknown.length > 0
  const gone = delivery.partial ? [] : missing.filter((name) => name !== null)
  return [
    ...(gone.length > 0
      ? [
          about(
            [label],
            [],
            mayBe ? 'unsure' : 'fail',
            `${quoted(label)} has no portrait for ${listed(gone)}${mayBe ? '; it may be a file whose name does not give the deliverable' : ''}.`,
            `Export ${listed(gone)} from the same frame as the other ${files.length === 1 ? 'file' : 'files'}.`,
          ),
        ]
      : []),
    ...ordered.flatMap((deliverable) => {
      // A copy that is to be deleted is told with its name.
      const same = files.filter(
        ({ name, rename }) =>
          (deliverable === null || name.deliverable === deliverable) && !(rename && 'sameAs' in rename),
      )
      if (same.length < 2) return []
      const paths = same.map(({ name }) => name.path)
      return [
        about(
          [label],
          paths,
          'fail',
          `${quoted(label)} has ${count(same.length, 'portrait')}${deliverable === null ? '' : ` for ${deliverable}`}: ${listed(paths.map(quoted))}.`,
          'Remove all but the approved one.',
        ),
      ]
    }),
  ]
}

/** Files that can't be counted for any deliverable. Names that don't fit the pattern are told by `file-name`. */
function aboutFile({ name }: DeliveredFile, { deliverables, namesJudged }: Delivery): DeliveryFinding[] {
  if (deliverables.length === 0 || name.deliverable !== null) return []
  if (namesJudged && name.problems.some(({ kind }) => kind === 'no-match' || kind === 'deliverable'))
    return []
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
): DeliveryFinding {
  return {
    people,
    files,
    verdict,
    measured: null,
    expected: 'every deliverable once',
    reason,
    ...(fix !== undefined && verdict === 'fail' && { fix }),
  }
}
