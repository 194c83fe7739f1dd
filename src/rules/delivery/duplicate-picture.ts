import { Type } from '@sinclair/typebox'
import { alikePairs } from '../../likeness/alike-pairs.ts'
import type { AlikePair } from '../../likeness/pair-search.ts'
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
    const contents = [...grouped(readable, ({ measured }) => measured.sha256).values()]
    const twins = new Map(contents.flatMap((files) => (files[0] ? [[files[0], files]] : [])))
    const { pairs, unknown } = alikePairs(
      readable.map(({ measured: { signature, face, sha256 }, person }) => ({
        ...{ signature: signature ?? null, face: face ?? null, person, content: sha256 },
      })),
    )
    const alike = grouped(pairs, ({ first }) => first)
    const found = readable.flatMap((file, index): DeliveryFinding[] => [
      ...aboutTwins(twins.get(file) ?? []),
      ...(alike.get(index) ?? []).map((pair) => aboutPair(pair, readable)),
    ])
    if (unknown.length > 0) found.push(unmeasured(unknown.flatMap((index) => readable[index] ?? [])))
    if (found.length > 0 || readable.length === 0) return found
    return [
      {
        ...NOTHING,
        people: [],
        files: [],
        reason: `No two people share a picture (${count(pairsOfTwo(readable), 'pair')} compared).`,
      },
    ]
  },
})

/** How many pairs of files are of two people, as far as the names tell. */
function pairsOfTwo(files: readonly DeliveredFile[]): number {
  const of = (count: number) => (count * (count - 1)) / 2
  const ofOne = [...grouped(files, ({ person }) => person).values()]
  return ofOne.reduce((pairs, own) => pairs - of(own.length), of(files.length))
}

/** By key, in the order in which they come; those without one are left out. */
function grouped<T, K>(items: readonly T[], keyOf: (item: T) => K | null): Map<K, T[]> {
  const groups = new Map<K, T[]>()
  for (const item of items) {
    const key = keyOf(item)
    if (key === null) continue
    const group = groups.get(key)
    if (group) group.push(item)
    else groups.set(key, [item])
  }
  return groups
}

/** One finding about all files of the same bytes, when they are not all of one person; a thousand have half a million pairs. */
function aboutTwins(twins: readonly DeliveredFile[]): DeliveryFinding[] {
  const [first] = twins
  const ofOne = first?.person !== null && twins.every(({ person }) => person === first?.person)
  return twins.length < 2 || ofOne ? [] : [sameFinding(twins, 'the same picture, byte for byte')]
}

function aboutPair(
  { first, second, sameness, isMirrored }: AlikePair,
  files: readonly DeliveredFile[],
): DeliveryFinding {
  const pair = [first, second].flatMap((index) => files[index] ?? [])
  const how = `the same picture${isMirrored ? ', mirrored' : ''}`
  if (sameness === 'same') return sameFinding(pair, how)
  return {
    ...about(pair),
    verdict: 'unsure',
    measured: `perhaps ${how}`,
    reason: `${listed(quotedNames(pair))} may be ${how}; check by eye.`,
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

function unmeasured(unknown: readonly DeliveredFile[]): DeliveryFinding {
  return {
    people: [],
    files: unknown.map(({ name }) => name.path),
    verdict: 'unsure',
    measured: null,
    expected: 'a picture of their own',
    reason: `${count(unknown.length, 'file')} could not be compared with the others; check by eye.`,
  }
}

const NOTHING = { verdict: 'pass', measured: 'none', expected: 'a picture of their own' } as const
