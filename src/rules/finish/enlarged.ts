import { Type } from '@sinclair/typebox'
import { SURE } from '../../measure/schema/confidence.ts'
import { sizeText } from '../../text/size.ts'
import type { Finding } from '../contract/outcome.ts'
import { defineRule } from '../contract/rule.ts'
import { doubtSentence } from '../judging/doubts.ts'
import { unmeasured } from '../judging/unmeasured.ts'

const EXPECTED = 'not enlarged'

export const enlarged = defineRule({
  id: 'enlarged',
  severity: 'picture',
  dependsOn: 'export',
  text: {
    title: 'Enlarged pictures',
    measures:
      'Traces that enlarging by a quarter or more leaves: a pattern of smoother and rougher columns and rows that repeats across the picture, or grown blocks of an earlier JPEG, together with a spectrum that ends early. A picture that is merely soft has no such pattern. Not every enlargement is found: strong compression, grain that was added afterwards and a further reduction hide the traces, and exact doubling repeats as the blocks of any JPEG do. A soft JPEG that was made smaller may have them, too.',
    why: 'An enlarged file has the pixels that were ordered, but not the detail: it looks soft in print, and the master would have had more.',
    fix: 'Export the master again at its native size, or ask for a smaller deliverable.',
    example: 'enlarged: none',
  },
  options: Type.Literal('none', { description: 'No file may be an enlargement.' }),
  needs: ['face', 'finish', 'enlargement'],
  judge({ measured }): Finding {
    const enlargement = measured.finish?.enlargement
    if (!enlargement) return unmeasured(measured, 'Whether the picture was enlarged')
    const { found, confidence, doubts } = enlargement
    if (found === null || confidence < SURE)
      return {
        verdict: 'unsure',
        measured: null,
        expected: EXPECTED,
        reason: `Whether the picture was enlarged could not be told: ${doubtSentence(doubts)}; check by eye at 100 %.`,
      }
    if (!found)
      return {
        verdict: 'pass',
        measured: 'no traces',
        expected: EXPECTED,
        reason: 'The picture shows no traces of an enlargement.',
      }
    return {
      verdict: 'fail',
      measured: 'enlarged',
      expected: EXPECTED,
      reason: `The picture was enlarged to ${sizeText(measured)}: rows and columns repeat a pattern that only resizing leaves, and it has no detail as fine as its pixels.`,
      fix: 'Export the master again at its native size; where that has too few pixels, have a smaller size ordered.',
    }
  },
})
