import { type Static, Type } from '@sinclair/typebox'
import { SURE } from '../../measure/schema/confidence.ts'
import type { Background } from '../../measure/schema/measurements.ts'
import { quantity } from '../../text/quantity.ts'
import { defineRule } from '../contract/rule.ts'
import { doubtSentence } from '../judging/doubts.ts'
import { unmeasured } from '../judging/unmeasured.ts'

/**
 * Share of what is behind the sitter that follows one smooth surface: from where on it is a plain backdrop and below which a place, %.
 * @tuned on 62 photographs before plain walls and sky and 19 drawn papers, of which none has less than 78, and on 54 before rooms, streets and
 * leaves, of which 39 have less than 70 and two 90 or more: what is between is left to the eye.
 */
const KINDS = { plain: 90, place: 70 } as const

const Options = Type.Union(
  [
    Type.Literal('required', {
      description: 'A plain backdrop: one color, graded or not.',
    }),
    Type.Literal('optional', {
      description: 'Either: the rules on the color of the backdrop judge plain ones and leave places out.',
    }),
    Type.Literal('refused', {
      description: 'A place, such as the office: a plain backdrop fails.',
    }),
  ],
  { description: 'Whether the backdrop is to be plain: required, optional or refused.' },
)

export const backgroundPlain = defineRule({
  id: 'background-plain',
  severity: 'picture',
  dependsOn: 'scene',
  text: {
    title: 'Plain backdrop',
    measures: `How much of what is behind the sitter, beside and above the head, follows one smooth color, graded or not (within 6 ΔE*ab). From ${KINDS.plain} % on it is a plain backdrop, under ${KINDS.place} % a place: a room, a street, a pattern, however blurred. In between it is unsure. A stand or the end of the paper at the edge of the frame is left to backdrop-edge.`,
    why: 'One office among ten plain walls, or one wall among ten offices, breaks the set; and the color of a room says nothing about the backdrop.',
    fix: 'Photograph or choose a frame before the kind of backdrop that the spec asks for.',
    example: 'background-plain: required',
  },
  options: Options,
  needs: ['background', 'face'],
  judge({ measured }, wanted) {
    const { background } = measured
    if (!background) return unmeasured(measured, 'Whether the backdrop is plain')
    const expected = EXPECTED[wanted]
    const asks = `the spec asks for ${expected}`
    const found = kindOf(background)
    if (!found && wanted === 'optional')
      return {
        verdict: 'pass',
        measured: 'plain or a place',
        expected,
        reason: `The backdrop is plain or a place, which could not be told; ${asks}.`,
      }
    if (!found)
      return {
        verdict: 'unsure',
        measured: null,
        expected,
        reason: `Whether the backdrop is plain could not be told with confidence: ${whyNot(background)}; ${asks}. Check by eye.`,
      }
    const reason = `The backdrop is ${found}: ${followed(background)}; ${asks}.`
    const fix = FIXES[wanted]?.[found]
    return { verdict: fix ? 'fail' : 'pass', measured: found, expected, reason, ...(fix && { fix }) }
  },
})

type Kind = 'plain' | 'a place'

const EXPECTED: Record<Static<typeof Options>, string> = {
  required: 'a plain backdrop',
  optional: 'either',
  refused: 'a place',
}

/** What each demand is missed by. */
const FIXES: Record<Static<typeof Options>, Partial<Record<Kind, string>> | null> = {
  required: {
    'a place':
      'Choose a frame before the plain backdrop, or photograph it again there; a cut-out needs an eye for the hair.',
  },
  optional: null,
  refused: {
    plain: 'Choose a frame with the place behind the sitter, or photograph it again there.',
  },
}

/** Null where it is near the limit, and where the rest of the backdrop's measurement speaks against it. */
function kindOf({ plainPct, confidence }: Background): Kind | null {
  if (plainPct === null) return null
  if (plainPct < KINDS.place) return 'a place'
  return plainPct >= KINDS.plain && confidence >= SURE ? 'plain' : null
}

function whyNot(background: Background): string {
  const { plainPct, doubts } = background
  if (plainPct === null && doubts.length === 0) return 'too little of it shows beside and above the head'
  return doubts.length > 0 ? doubtSentence(doubts) : followed(background)
}

function followed({ plainPct }: Background): string {
  return `${quantity(plainPct ?? 0, ' %')} of what is behind the sitter follows one smooth color`
}
