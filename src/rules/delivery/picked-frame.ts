import { Type } from '@sinclair/typebox'
import { PICK } from '../../people/roster-picks.ts'
import { listed } from '../../text/quantity.ts'
import { quoted } from '../../text/quoted.ts'
import type { DeliveryFinding } from '../contract/delivery-outcome.ts'
import { type DeliveredFile, defineDeliveryRule } from '../contract/delivery-rule.ts'
import { byPerson } from '../judging/by-person.ts'
import { namesFrame, type PickAnswer } from './pick.ts'

export const pickedFrame = defineDeliveryRule({
  id: 'picked-frame',
  severity: 'picture',
  dependsOn: 'scene',
  text: {
    title: 'The frame that the sitter picked',
    measures:
      "The roster's column `pick`, which holds a frame number, an original file name or a capture time, is compared with the metadata of the person's files: raw file name, name on import, source documents, the camera's frame number, capture time with fractions of a second.",
    why: 'The sitter chose one frame of a dozen; afterward nobody can see whether it was the one used.',
    fix: 'Export from the picked frame; keep its metadata when exporting.',
    example: 'picked-frame: roster',
  },
  options: Type.Literal('roster', {
    description: 'The picks in the roster. Also runs when the roster has a column "pick".',
  }),
  unasked: ({ roster }) => (roster?.columns.includes(PICK) ? 'roster' : null),
  needs: ['metadata'],
  judge({ files, people, roster }) {
    if (!roster?.columns.includes(PICK))
      return [skip(roster ? 'The roster has no column "pick".' : 'There is no roster with picks.')]
    const readable = byPerson(files.filter(({ measured }) => measured.fault === null))
    const found = people.flatMap(({ label, entry }) => {
      const pick = entry?.values[PICK] ?? ''
      const own = readable.get(label) ?? []
      return pick === '' || own.length === 0 ? [] : aboutPerson(label, pick, own)
    })
    return found.length > 0 ? found : [skip('The roster has no pick for anyone delivered.')]
  },
})

function aboutPerson(label: string, pick: string, own: readonly DeliveredFile[]): DeliveryFinding[] {
  const answers = own.map(({ name, measured }) => ({
    path: name.path,
    ...(measured.metadata ? namesFrame(measured.metadata, pick) : NOTHING_KNOWN),
  }))
  const having = (verdict: PickAnswer['verdict']) => answers.filter((answer) => answer.verdict === verdict)
  const about = (files: typeof answers) => ({
    ...{ people: [label], files: files.map(({ path }) => path), expected: pick },
  })
  const [wrong, unknown] = [having('other'), having('unknown')]
  const found: DeliveryFinding[] = []
  if (wrong.length > 0) {
    const frame = wrong[0]?.found ?? null
    found.push({
      ...about(wrong),
      verdict: 'fail',
      measured: frame,
      reason: `${namesOf(wrong)} ${wrong.length === 1 ? 'is' : 'are'} from frame ${quoted(frame ?? '')}; the pick is ${quoted(pick)}.`,
      fix: `Export again from ${quoted(pick)}, or correct the pick in the roster.`,
    })
  }
  if (unknown.length > 0)
    found.push({
      ...about(unknown),
      verdict: 'unsure',
      measured: null,
      reason: `The metadata of ${namesOf(unknown)} does not say whether the frame is ${quoted(pick)}; check by eye.`,
    })
  if (found.length > 0) return found
  return [
    {
      ...about(answers),
      verdict: 'pass',
      measured: answers[0]?.found ?? null,
      reason: `All files of ${quoted(label)} are from the picked frame ${quoted(pick)}.`,
    },
  ]
}

function namesOf(files: readonly { readonly path: string }[]): string {
  return listed(files.map(({ path }) => quoted(path)))
}

const NOTHING_KNOWN: PickAnswer = { verdict: 'unknown', found: null }

function skip(reason: string): DeliveryFinding {
  return { people: [], files: [], verdict: 'skip', measured: null, expected: null, reason }
}
