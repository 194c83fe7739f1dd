import { Type } from '@sinclair/typebox'
import type { DeliveryFinding } from './delivery-outcome.ts'
import { type DeliveredFile, defineDeliveryRule } from './delivery-rule.ts'
import { count } from './quantity.ts'
import { quoted } from './quoted.ts'
import { type Sameness, samePicture } from './same-picture.ts'
import { type ReadySignature, ready } from './signature-pair.ts'

export const duplicatePicture = defineDeliveryRule({
  id: 'duplicate-picture',
  text: {
    title: 'No picture delivered for two people',
    measures:
      'Each file against each of another person: small grids of brightness of the frame and of the face, so that a copy is found also when it was saved again, resized, cropped a little or mirrored. Two different pictures of one person do not match: nobody is recognised.',
    why: "The wrong face beside a name is the mistake that people remember, and two names under one picture mean that somebody's portrait is missing.",
    mend: 'Find out whose picture it is and deliver the right one for the other.',
    example: 'duplicate-picture: none',
  },
  options: Type.Literal('none', { description: 'No two people may have the same picture.' }),
  needs: ['face', 'signature'],
  judge(delivery) {
    const candidates = delivery.files.filter(({ measured }) => measured.fault === null).map(prepared)
    const found: DeliveryFinding[] = []
    let pairs = 0
    for (const [i, first] of candidates.entries()) {
      for (const second of candidates.slice(i + 1)) {
        if (first.file.person !== null && first.file.person === second.file.person) continue
        pairs++
        const finding = judgePair(first, second)
        if (finding) found.push(finding)
      }
    }
    const unknown = candidates.filter(({ signature }) => signature === null)
    if (unknown.length > 0) found.push(unmeasured(unknown))
    if (found.length > 0 || candidates.length === 0) return found
    return [
      {
        ...NOTHING,
        people: [],
        files: [],
        reason: `No picture was delivered for two people (${count(pairs, 'pair')} compared).`,
      },
    ]
  },
})

interface Candidate {
  readonly file: DeliveredFile
  readonly signature: ReadySignature | null
}

function prepared(file: DeliveredFile): Candidate {
  const { signature } = file.measured
  return { file, signature: signature ? ready(signature) : null }
}

function judgePair(
  { file: a, signature: p }: Candidate,
  { file: b, signature: q }: Candidate,
): DeliveryFinding | null {
  const identical = a.measured.sha256 !== null && a.measured.sha256 === b.measured.sha256
  const { sameness, isMirrored } = identical
    ? { sameness: 'same' as Sameness, isMirrored: false }
    : p && q
      ? samePicture(p, q)
      : { sameness: 'different' as Sameness, isMirrored: false }
  if (sameness === 'different') return null
  const people = [...new Set([a.person, b.person])].filter((person) => person !== null)
  const files = [a.name.path, b.name.path]
  const names = `${quoted(a.name.path)} and ${quoted(b.name.path)}`
  const how = identical
    ? 'the same picture, byte for byte'
    : `the same picture${isMirrored ? ', mirrored' : ''}`
  const whole = {
    people,
    files,
    measured: sameness === 'same' ? how : `perhaps ${how}`,
    expected: 'a picture of their own',
  }
  if (sameness === 'perhaps')
    return { ...whole, verdict: 'unsure', reason: `${names} may be ${how}; have a person look.` }
  if (people.length < 2)
    return {
      ...whole,
      verdict: 'unsure',
      reason: `${names} are ${how}, and the names do not tell whether they are of two people; have a person look.`,
    }
  return {
    ...whole,
    verdict: 'fail',
    reason: `${names} are ${how}, delivered for ${quoted(people[0] ?? '')} and for ${quoted(people[1] ?? '')}.`,
    remedy: 'Find out whose picture it is, and deliver the right one for the other.',
  }
}

function unmeasured(unknown: readonly Candidate[]): DeliveryFinding {
  return {
    people: [],
    files: unknown.map(({ file }) => file.name.path),
    verdict: 'unsure',
    measured: null,
    expected: 'a picture of their own',
    reason: `${count(unknown.length, 'file')} could not be compared with the others; have a person look.`,
  }
}

const NOTHING = { verdict: 'pass', measured: 'none', expected: 'a picture of their own' } as const
