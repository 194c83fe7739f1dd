import { Type } from '@sinclair/typebox'
import { mayBeSame, type Selectable, selectable } from '../../likeness/pair-selection.ts'
import { ready } from '../../likeness/ready-signature.ts'
import { samePicture } from '../../likeness/same-picture.ts'
import { count, listed } from '../../text/quantity.ts'
import { quoted } from '../../text/quoted.ts'
import type { DeliveryFinding } from '../contract/delivery-outcome.ts'
import { type DeliveredFile, defineDeliveryRule } from '../contract/delivery-rule.ts'

export const duplicatePicture = defineDeliveryRule({
  id: 'duplicate-picture',
  severity: 'unusable',
  dependsOn: 'scene',
  text: {
    title: 'No two people share a picture',
    measures:
      'Each file is compared with every file of another person, by small grids of brightness of the frame and of the face, so that a copy is found even when re-saved, resized, slightly cropped or mirrored. Two different pictures of one person do not match: nobody is recognized.',
    why: "A wrong face beside a name is the mistake people remember, and one picture under two names means that somebody's portrait is missing.",
    fix: 'See whom the picture shows, and replace the file of the other person with a portrait of theirs.',
    example: 'duplicate-picture: none',
  },
  options: Type.Literal('none', { description: 'No two people may have the same picture.' }),
  needs: ['checksum', 'face', 'signature'],
  needsWhole: () => 'whether a picture is also among the files that were left out',
  judge(delivery) {
    const readable = delivery.files.filter(({ measured }) => measured.fault === null)
    const twins = byContent(readable)
    const candidates = readable.map((file): Candidate => prepared(file, twins))
    const found: DeliveryFinding[] = []
    let pairs = 0
    for (const [i, first] of candidates.entries()) {
      if (first.twins[0] === first.file) found.push(...aboutTwins(first.twins))
      for (let j = i + 1; j < candidates.length; j++) {
        const second = candidates[j] as Candidate
        if (first.file.person !== null && first.file.person === second.file.person) continue
        pairs++
        if (first.twins === second.twins) continue
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
        reason: `No two people share a picture (${count(pairs, 'pair')} compared).`,
      },
    ]
  },
})

interface Candidate {
  readonly file: DeliveredFile
  readonly signature: Selectable | null
  /** All files with the same bytes, itself among them. */
  readonly twins: readonly DeliveredFile[]
}

function prepared(file: DeliveredFile, twins: ReadonlyMap<string, readonly DeliveredFile[]>): Candidate {
  const { signature, sha256, face } = file.measured
  const alike = sha256 === null ? undefined : twins.get(sha256)
  const made = signature ? ready(signature) : null
  return { file, signature: made && selectable(made, face), twins: alike ?? [file] }
}

function byContent(files: readonly DeliveredFile[]): ReadonlyMap<string, readonly DeliveredFile[]> {
  const twins = new Map<string, DeliveredFile[]>()
  for (const file of files) {
    const { sha256 } = file.measured
    if (sha256 === null) continue
    const others = twins.get(sha256)
    if (others) others.push(file)
    else twins.set(sha256, [file])
  }
  return twins
}

/** One finding about all files of the same bytes, when they are not all of one person; a thousand have half a million pairs. */
function aboutTwins(twins: readonly DeliveredFile[]): DeliveryFinding[] {
  const [first] = twins
  const ofOne = first?.person !== null && twins.every(({ person }) => person === first?.person)
  return twins.length < 2 || ofOne ? [] : [sameFinding(twins, 'the same picture, byte for byte')]
}

function judgePair(
  { file: a, signature: p }: Candidate,
  { file: b, signature: q }: Candidate,
): DeliveryFinding | null {
  if (!p || !q || !mayBeSame(p, q)) return null
  const { sameness, isMirrored } = samePicture(p.signature, q.signature)
  if (sameness === 'different') return null
  const how = `the same picture${isMirrored ? ', mirrored' : ''}`
  if (sameness === 'same') return sameFinding([a, b], how)
  return {
    ...about([a, b]),
    verdict: 'unsure',
    measured: `perhaps ${how}`,
    reason: `${listed(quotedNames([a, b]))} may be ${how}; check by eye.`,
  }
}

function sameFinding(files: readonly DeliveredFile[], how: string): DeliveryFinding {
  const whole = { ...about(files), measured: how }
  const names = listed(quotedNames(files))
  if (whole.people.length < 2)
    return {
      ...whole,
      verdict: 'unsure',
      reason: `${names} are ${how}, and the names don't say whether they show two people; check by eye.`,
    }
  return {
    ...whole,
    verdict: 'fail',
    reason: `${names} are ${how}, delivered ${listed(whole.people.map((person) => `for ${quoted(person)}`))}.`,
    fix: 'See whom the picture shows, and replace the file of the other person with a portrait of theirs.',
  }
}

function about(files: readonly DeliveredFile[]): Pick<DeliveryFinding, 'people' | 'files' | 'expected'> {
  return {
    people: [...new Set(files.flatMap(({ person }) => person ?? []))],
    files: files.map(({ name }) => name.path),
    expected: 'a picture of their own',
  }
}

function quotedNames(files: readonly DeliveredFile[]): string[] {
  return files.map(({ name }) => quoted(name.path))
}

function unmeasured(unknown: readonly Candidate[]): DeliveryFinding {
  return {
    people: [],
    files: unknown.map(({ file }) => file.name.path),
    verdict: 'unsure',
    measured: null,
    expected: 'a picture of their own',
    reason: `${count(unknown.length, 'file')} could not be compared with the others; check by eye.`,
  }
}

const NOTHING = { verdict: 'pass', measured: 'none', expected: 'a picture of their own' } as const
