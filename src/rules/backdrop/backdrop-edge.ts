import { type Static, Type } from '@sinclair/typebox'
import { SMALLEST_INTRUSION_PCT } from '../../measure/schema/background.ts'
import { SURE } from '../../measure/schema/confidence.ts'
import type { Intrusion } from '../../measure/schema/measurements.ts'
import { capitalized } from '../../text/capitalized.ts'
import { asked, count, listed, pixels, quantity } from '../../text/quantity.ts'
import { defineRule } from '../contract/rule.ts'
import { doubtSentence } from '../judging/doubts.ts'
import { unmeasured } from '../judging/unmeasured.ts'

const Options = Type.Union(
  [
    Type.Literal(true, { description: 'Nothing but backdrop and sitter at the edges of the frame.' }),
    Type.Object(
      {
        'smallest-pct': Type.Number({
          minimum: SMALLEST_INTRUSION_PCT,
          maximum: 50,
          description: 'Regions under this share of the frame, in percent, are allowed.',
        }),
      },
      { additionalProperties: false },
    ),
  ],
  {
    description:
      'Nothing but backdrop and sitter at the edges: true for every region that is measured, or the smallest share of the frame that counts.',
  },
)

export const backdropEdge = defineRule({
  id: 'backdrop-edge',
  severity: 'picture',
  text: {
    title: 'Nothing but backdrop and sitter at the edges of the frame',
    measures: `Regions that touch an edge of the frame and are neither backdrop nor sitter: a corner of the room, the border of the backdrop (from about 3 L* of contrast), a stand, a clamp, a light. What is connected with the sitter, such as an arm, hair or a chair, does not count. Each region has a box and a share of the frame; less than ${SMALLEST_INTRUSION_PCT} % of the frame is not measured. Faint edges are found only where they are straight, at the upper corners, the sides and the top.`,
    why: 'A stand or the end of the paper in a corner shows how the picture was made, and draws the eye.',
    fix: 'Crop it out, or retouch the backdrop over it; on the set, move the stand or use a wider backdrop.',
    example: 'backdrop-edge: { smallest-pct: 0.5 }',
  },
  options: Options,
  needs: ['background', 'face'],
  framing: (options) => ({ 'backdrop-edge': { smallestPct: smallestOf(options) } }),
  judge({ measured }, options) {
    const { background, widthPx, heightPx } = measured
    if (!background || !widthPx || !heightPx) return unmeasured(measured, 'The edges of the frame')
    const { intrusions, confidence, doubts } = background
    const smallest = smallestOf(options)
    const expected =
      smallest > SMALLEST_INTRUSION_PCT ? `nothing of ${asked(smallest, ' %')} or more` : 'nothing'
    const asks = `the spec asks for ${expected} there`
    if (!intrusions || confidence < SURE) {
      const why = doubtSentence(intrusions ? doubts : ['no-face', ...doubts])
      return {
        verdict: 'unsure',
        measured: null,
        expected,
        reason: `The edges of the frame could not be measured with confidence: ${why}. ${capitalized(asks)}; check by eye.`,
      }
    }
    const found = intrusions.filter(({ areaPct }) => areaPct >= smallest)
    if (found.length === 0)
      return {
        verdict: 'pass',
        measured: 'nothing',
        expected,
        reason: `Nothing but backdrop and sitter is at the edges of the frame; ${asks}.`,
      }
    const places = found.map((each) => placeText(each, widthPx, heightPx))
    return {
      verdict: 'fail',
      measured: `${count(found.length, 'region')}, ${listed(distinct(found.map(({ side }) => side)))}`,
      expected,
      reason: `Something besides backdrop and sitter is visible: ${listed(places)}; ${asks}.`,
      fix: `Crop off ${listed(cuts(found, widthPx, heightPx))}, or retouch the backdrop over it.`,
    }
  },
})

function smallestOf(options: Static<typeof Options>): number {
  return options === true ? SMALLEST_INTRUSION_PCT : options['smallest-pct']
}

/** "a region of 40 x 50 px at the left, from 0 px right and 0 px down (0.5 % of the frame)" */
function placeText({ side, box, areaPct }: Intrusion, widthPx: number, heightPx: number): string {
  const size = `${Math.round(box.width * widthPx)} x ${Math.round(box.height * heightPx)} px`
  const from = `${Math.round(box.x * widthPx)} px from the left and ${Math.round(box.y * heightPx)} px from the top`
  return `a region of ${size} at the ${side} edge, ${from} (${quantity(areaPct, ' %')} of the frame)`
}

type Side = Intrusion['side']

/** What has to go from each side for all of them to be out of the frame: "57 px from the left". */
function cuts(found: readonly Intrusion[], widthPx: number, heightPx: number): string[] {
  return distinct(found.map(({ side }) => side)).map((side) => {
    const most = Math.max(...found.filter((each) => each.side === side).map(({ box }) => depth(side, box)))
    return `${pixels(100 * most, side === 'top' || side === 'bottom' ? heightPx : widthPx)} from the ${side}`
  })
}

function depth(side: Side, { x, y, width, height }: Intrusion['box']): number {
  if (side === 'top') return y + height
  if (side === 'bottom') return 1 - y
  return side === 'left' ? x + width : 1 - x
}

function distinct<T>(values: readonly T[]): T[] {
  return [...new Set(values)]
}
