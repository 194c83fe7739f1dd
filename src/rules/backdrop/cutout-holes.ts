import { Type } from '@sinclair/typebox'
import { SURE } from '../../measure/schema/confidence.ts'
import { FRINGE_LEAST_EYE_DISTANCE_PX } from '../../measure/schema/gates.ts'
import type { Box, Doubt, Holes, Measurements } from '../../measure/schema/measurements.ts'
import { count } from '../../text/quantity.ts'
import { sizeText } from '../../text/size.ts'
import type { Finding } from '../contract/outcome.ts'
import { defineRule } from '../contract/rule.ts'
import { doubtSentence } from '../judging/doubts.ts'
import { unmeasured } from '../judging/unmeasured.ts'

const EXPECTED = 'none'

/** Least lightness of a backdrop that shirts, badges and prints have too, L*. @choice what is called white; no source */
const WHITE_L = 90
/** Largest lightness of one that ties, lapels and prints have too, L*. @choice what is called black; no source */
const BLACK_L = 15

export const cutoutHoles = defineRule({
  id: 'cutout-holes',
  severity: 'picture',
  dependsOn: 'export',
  text: {
    title: 'Holes in a cut-out',
    measures: `Patches inside the sitter that have exactly the color of the backdrop there and end sharply all around. Cloth, skin and hair of that color shade off gradually and don't count, nor do gaps that bodies have: only the middle of the face, neck and chest is searched, and what lies farther inside the outline than an arm is wide. The eyes are left out because of their catchlights. Holes at the outline, in outer locks of hair and in sleeves are not found, nor are half-transparent ones. Before a white or black backdrop (L* from ${WHITE_L} up, or ${BLACK_L} or less) a patch is unsure, since shirts, badges and ties have that color too. With less than ${FRINGE_LEAST_EYE_DISTANCE_PX} pixels between the eyes, or before a backdrop that is not plain and smooth, the rule is unsure.`,
    why: 'A mask can leave out parts that have the color of the old backdrop, such as a collar or a highlight on a forehead, and the new backdrop shows through.',
    fix: "Paint the sitter back into the mask, and check the rest of the mask against a color that the sitter doesn't have.",
    example: 'cutout-holes: none',
  },
  options: Type.Literal('none', { description: 'No backdrop may show through the sitter.' }),
  needs: ['background', 'cutout', 'face'],
  judge({ measured }): Finding {
    const { background, widthPx, heightPx } = measured
    if (!background || !widthPx || !heightPx) return unmeasured(measured, 'Whether the cut-out has holes')
    const { holes, confidence, lightnessL } = background
    if (!holes || confidence < SURE)
      return unsure(`Whether the cut-out has holes could not be told: ${doubtSentence(doubtsOf(measured))}`)
    const [largest] = holes.boxes
    if (!largest)
      return {
        verdict: 'pass',
        measured: 'none',
        expected: EXPECTED,
        reason: 'The backdrop does not show through the sitter.',
      }
    const places = placesText(holes, largest, widthPx, heightPx)
    if (lightnessL >= WHITE_L || lightnessL <= BLACK_L) {
      const tone = lightnessL >= WHITE_L ? 'white' : 'black'
      return unsure(
        `The sitter is as ${tone} as the backdrop in ${places}: holes in a mask, or ${tone} cloth, prints or badges`,
      )
    }
    return {
      verdict: 'fail',
      measured: count(holes.boxes.length, 'place'),
      expected: EXPECTED,
      reason: `The backdrop shows through the sitter in ${places}.`,
      fix: 'Paint the sitter back into the mask there.',
    }
  },
})

function unsure(reason: string): Finding {
  return { verdict: 'unsure', measured: null, expected: EXPECTED, reason: `${reason}; check by eye.` }
}

function doubtsOf({ background, face }: Measurements): readonly Doubt[] {
  if (background && background.confidence < SURE) return background.doubts
  return [face?.box ? 'holes-unclear' : 'no-face']
}

/** "2 places, the largest of 40 x 50 px, 300 px from the left and 700 px from the top" */
function placesText({ boxes }: Holes, largest: Box, widthPx: number, heightPx: number): string {
  const { x, y, width, height } = largest
  const size = sizeText({ widthPx: Math.round(width * widthPx), heightPx: Math.round(height * heightPx) })
  const from = `${Math.round(x * widthPx)} px from the left and ${Math.round(y * heightPx)} px from the top`
  return `${count(boxes.length, 'place')}${boxes.length > 1 ? ', the largest' : ''} of ${size}, ${from}`
}
