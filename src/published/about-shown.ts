import type { Measurements } from '../measure/schema/measurements.ts'
import type { Person } from '../people/person.ts'
import { endingOf, hasEnded } from '../people/roster-entry.ts'
import { quoted } from '../text/quoted.ts'
import { bandProblems, largerProblem } from './bands.ts'
import { creditProblem } from './credit.ts'
import type { PublishedFinding } from './finding.ts'
import { type Approved, type Candidate, comparable } from './match.ts'
import type { Picture, Publication } from './publication.ts'

/** What is known of a picture that is shown. */
interface About {
  readonly findings: readonly PublishedFinding[]
  /** Whom it is shown for, or whom it shows. */
  readonly person: Person | null
  /** Whether it is an approved picture of that person. */
  readonly isRight: boolean
}

/** What is to be told of a picture that is shown. */
export function aboutShown(one: Picture, standing: Approved<Picture>, publication: Publication): About {
  const { name, measured } = one
  const tell = (
    kind: PublishedFinding['kind'],
    message: string,
    { person = one.person, approved = null }: { person?: Person | null; approved?: Picture | null } = {},
    verdict: PublishedFinding['verdict'] = 'fail',
  ): PublishedFinding => ({
    ...{
      kind,
      verdict,
      file: name.path,
      person: person?.label ?? null,
      approved: approved?.name.path ?? null,
      message,
    },
  })
  if (measured.fault !== null)
    return {
      findings: [tell('unreadable', 'The file could not be read as a picture.')],
      person: one.person,
      isRight: false,
    }
  const matches = standing.matchesOf({ measured, picture: comparable(measured) })
  const own = matches.filter(({ of }) => one.person === null || of.person?.label === one.person.label)
  const match = nearest(own.length > 0 ? own : matches, measured)
  const person = one.person ?? match?.of.person ?? null
  const gone = person ? endedFinding(person, publication, tell) : []
  if (gone.length > 0) return { findings: gone, person, isRight: false }
  if (!match) return { findings: [unapproved(one, standing.candidates, tell)], person, isRight: false }
  const { of: approved, sameness, isMirrored } = match
  const to = { person, approved }
  if (sameness === 'perhaps') {
    const message = `It may be ${quoted(approved.name.path)}, which was approved, or another picture; check by eye.`
    return { findings: [tell('unsure', message, to, 'unsure')], person, isRight: false }
  }
  if (own.length === 0) {
    const message = `It is the approved picture of ${quoted(approved.person?.label ?? '')}, shown for ${quoted(person?.label ?? '')}. Show the right one.`
    return { findings: [tell('swapped', message, to)], person, isRight: false }
  }
  const mirrored = isMirrored
    ? [tell('mirrored', `It is ${quoted(approved.name.path)} in a mirror; show it as it was approved.`, to)]
    : []
  const { spec } = publication
  const bands = bandProblems(measured, approved, spec).map(({ message, verdict }) =>
    tell('band', message, to, verdict),
  )
  const credit = creditProblem(measured.metadata, approved.measured.metadata)
  const larger = largerProblem(measured, approved)
  return {
    findings: [
      ...mirrored,
      ...bands,
      ...(larger === null ? [] : [tell('larger', larger, to)]),
      ...(credit === null ? [] : [tell('credit', credit, to)]),
    ],
    person,
    isRight: true,
  }
}

type Tell = (
  kind: PublishedFinding['kind'],
  message: string,
  to?: { person?: Person | null; approved?: Picture | null },
  verdict?: PublishedFinding['verdict'],
) => PublishedFinding

function endedFinding(person: Person, { hasRoster, today }: Publication, tell: Tell): PublishedFinding[] {
  const { entry, label } = person
  if (entry === null)
    return hasRoster
      ? [
          tell('stranger', `${quoted(label)} is not on the roster; take the picture down, or add them.`, {
            person,
          }),
        ]
      : []
  const ending = endingOf(entry)
  if (!ending || !hasEnded(entry, today)) return []
  const why = ending.cause === 'left' ? `left on ${ending.day}` : `agreed to be shown until ${ending.day}`
  return [tell('ended', `${quoted(label)} ${why}; take the picture down.`, { person })]
}

function unapproved(
  { person, measured }: Picture,
  candidates: readonly Candidate<Picture>[],
  tell: Tell,
): PublishedFinding {
  const own = candidates.filter(({ of }) => person !== null && of.person?.label === person.label)
  // What can't be compared may still be the one that was approved.
  if (comparable(measured) === null || own.some(({ picture }) => picture === null))
    return tell('unsure', 'It could not be compared with what was approved; check by eye.', {}, 'unsure')
  if (person === null)
    return tell('not-approved', 'It is no picture that was approved. Take it down, or have it approved.')
  const approved = nearest(own, measured)?.of
  if (!approved)
    return tell(
      'not-approved',
      `No portrait of ${quoted(person.label)} was approved. Take it down, or have it approved.`,
    )
  return tell(
    'not-approved',
    `It is not the portrait of ${quoted(person.label)} that was approved: an earlier one, perhaps. Publish ${quoted(approved.name.path)}.`,
    { approved },
  )
}

/** The approved file whose shape is nearest: one frame is delivered in several. */
function nearest<T extends { readonly of: Picture }>(all: readonly T[], measured: Measurements): T | null {
  const ratio = ratioOf(measured)
  const off = ({ of }: T) => Math.abs(Math.log(ratioOf(of.measured) / ratio))
  return [...all].sort((a, b) => off(a) - off(b))[0] ?? null
}

function ratioOf({ widthPx, heightPx }: Measurements): number {
  return widthPx && heightPx ? widthPx / heightPx : 1
}
