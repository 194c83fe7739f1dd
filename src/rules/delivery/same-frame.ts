import { Type } from '@sinclair/typebox'
import { ready } from '../../likeness/ready-signature.ts'
import { sameFrame } from '../../likeness/same-picture.ts'
import { listed } from '../../text/quantity.ts'
import { quoted } from '../../text/quoted.ts'
import type { DeliveryFinding } from '../contract/delivery-outcome.ts'
import { type DeliveredFile, defineDeliveryRule } from '../contract/delivery-rule.ts'
import { byPerson } from '../judging/by-person.ts'

/** What a file shows beside the one that shows most. */
type Shown = 'one frame' | 'mirrored' | 'perhaps mirrored' | 'another frame' | 'unclear'

const EXPECTED = 'one frame, the same way round'

export const sameFrameRule = defineDeliveryRule({
  id: 'same-frame',
  severity: 'picture',
  dependsOn: 'scene',
  text: {
    title: "All of a person's variants come from one frame",
    measures:
      "Each person's files are aligned at the eyes and compared as small grids of brightness. Crop, size, brightness and compression may differ; a different smile, gaze or turn of the head means another frame. Each is compared as it is and flipped: a variant that is a mirror image of another fails. Whether all of them are mirrored can't be told from the pictures.",
    why: 'The sitter approved one frame, and has never seen another one that goes to print or online. A mirrored portrait shows a face that nobody knows, and reversed badges.',
    fix: 'Decide which frame was approved, and export all variants from it, the same way round.',
    example: 'same-frame: all',
  },
  options: Type.Literal('all', { description: 'All files of each person.' }),
  needs: ['checksum', 'face', 'signature'],
  needsWhole: ({ files, deliverables }) =>
    [...byPerson(files).values()].some((own) => deliverables.some((one) => lacks(own, one)))
      ? 'whether left-out files are from the same frame'
      : null,
  judge({ files: all, people }) {
    const readable = all.filter(
      ({ measured, settled }) => measured.fault === null && !settled.includes('no-face'),
    )
    const files = byPerson(readable)
    const found = people.flatMap(({ label }) => {
      const own = files.get(label) ?? []
      return own.length < 2 ? [] : aboutPerson(label, own)
    })
    if (found.length > 0 || readable.length === 0) return found
    return [
      {
        people: [],
        files: [],
        verdict: 'skip',
        measured: null,
        expected: null,
        reason: 'No one has two files to compare.',
      },
    ]
  },
})

function aboutPerson(label: string, own: readonly DeliveredFile[]): DeliveryFinding[] {
  // Against the largest: it shows most.
  const [first, ...others] = [...own].sort((a, b) => width(b) - width(a)) as [
    DeliveredFile,
    ...DeliveredFile[],
  ]
  const compared = others.map((file) => ({ file, shown: compare(first, file) }))
  const having = (wanted: Shown) => compared.flatMap(({ file, shown }) => (shown === wanted ? [file] : []))
  const about = (files: readonly DeliveredFile[]) => ({
    ...{ people: [label], files: [first, ...files].map(({ name }) => name.path), expected: EXPECTED },
  })
  const reference = quoted(first.name.path)
  const [different, unknown] = [having('another frame'), having('unclear')]
  const [mirrored, unclearSide] = [having('mirrored'), having('perhaps mirrored')]
  const found: DeliveryFinding[] = []
  if (different.length > 0)
    found.push({
      ...about(different),
      verdict: 'fail',
      measured: 'another frame',
      reason: `${namesOf(different)} ${different.length === 1 ? 'is' : 'are'} not from the same frame as ${reference}.`,
      fix: 'Decide which frame was approved, and export all variants from it.',
    })
  if (mirrored.length > 0)
    found.push({ ...about(mirrored), ...mirrorFinding([first, ...having('one frame')], mirrored) })
  if (unknown.length > 0)
    found.push({
      ...about(unknown),
      verdict: 'unsure',
      measured: null,
      reason: `It is not clear whether ${namesOf(unknown)} and ${reference} are from the same frame; check by eye.`,
    })
  if (unclearSide.length > 0)
    found.push({
      ...about(unclearSide),
      verdict: 'unsure',
      measured: 'one frame, perhaps mirrored',
      reason: `${namesOf(unclearSide)} and ${reference} are from the same frame, but both halves of it are so alike that it is not clear whether one is mirrored; check by eye.`,
    })
  if (found.length > 0) return found
  return [
    {
      ...about(others),
      verdict: 'pass',
      measured: 'one frame',
      reason: `All files of ${quoted(label)} are from the same frame.`,
    },
  ]
}

/** The smaller part is held against the larger; nothing tells which of two is the right way round. */
function mirrorFinding(
  asFirst: readonly DeliveredFile[],
  mirrored: readonly DeliveredFile[],
): Pick<DeliveryFinding, 'verdict' | 'measured' | 'reason' | 'fix'> {
  const [few, many] = mirrored.length > asFirst.length ? [asFirst, mirrored] : [mirrored, asFirst]
  const [are, it, others] =
    few.length === 1
      ? ['is a mirror image', 'it', 'the other if that one is']
      : ['are mirror images', 'them', 'the others if those are']
  const isOpen = few.length === many.length
  return {
    verdict: 'fail',
    measured: 'mirrored',
    reason: `${namesOf(few)} ${are} of ${namesOf(many)}; all variants must show the sitter the same way round.`,
    fix: `Flip ${it} back${isOpen ? `, or ${others} reversed: lettering, badges and the hair parting show which` : ''}.`,
  }
}

function lacks(own: readonly DeliveredFile[], deliverable: string): boolean {
  return !own.some(({ name }) => name.deliverable === deliverable)
}

function namesOf(files: readonly DeliveredFile[]): string {
  return listed(files.map(({ name }) => quoted(name.path)))
}

function width({ measured }: DeliveredFile): number {
  return measured.face?.eyeDistancePx ?? 0
}

function compare({ measured: a }: DeliveredFile, { measured: b }: DeliveredFile): Shown {
  if (a.sha256 !== null && a.sha256 === b.sha256) return 'one frame'
  const first = a.signature ? ready(a.signature) : null
  const second = b.signature ? ready(b.signature) : null
  if (!first || !second) return 'unclear'
  const { sameness, isMirrored } = sameFrame(first, second, [a.face, b.face])
  if (sameness !== 'same') return sameness === 'different' ? 'another frame' : 'unclear'
  if (isMirrored === null) return 'perhaps mirrored'
  return isMirrored ? 'mirrored' : 'one frame'
}
