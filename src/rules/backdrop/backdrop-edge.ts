import { type Static, Type } from '@sinclair/typebox'
import { SMALLEST_INTRUSION_PCT } from '../../measure/schema/background.ts'
import { SURE } from '../../measure/schema/confidence.ts'
import type { Doubt, Intrusion, Measurements, Straightening } from '../../measure/schema/measurements.ts'
import { capitalized } from '../../text/capitalized.ts'
import { asked, count, listed, pixels, quantity } from '../../text/quantity.ts'
import { sizeText } from '../../text/size.ts'
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
  dependsOn: 'crop',
  text: {
    title: 'Nothing but backdrop and sitter at the edges of the frame',
    measures: `Regions that touch an edge of the frame and are neither backdrop nor sitter: a corner of the room, the border of the backdrop (from about 3 L* of contrast), a stand, a clamp, a light. What is connected with the sitter, such as an arm, hair or a chair, does not count. Each region has a box and a share of the frame; less than ${SMALLEST_INTRUSION_PCT} % of the frame is not measured. Also wedges and strips that straightening leaves when the picture is rotated (0.3 to 6°) and not cropped: of one color, transparent, smeared (the outermost pixels repeated) or mirrored. Those of one color are found from about 1.2 px of the file on; smeared and mirrored ones only where there is something to repeat, such as hair, clothes or grain. Faint edges are found only where they are straight, at the upper corners, the sides and the top.`,
    why: 'A stand, the end of the paper or an empty corner shows how the picture was made, and draws the eye.',
    fix: 'Crop it out, or retouch the backdrop over it; on the set, move the stand or use a wider backdrop. After rotating, crop to what is picture.',
    example: 'backdrop-edge: { smallest-pct: 0.5 }',
  },
  options: Options,
  needs: ['background', 'face'],
  framing: (options) => ({ 'backdrop-edge': { smallestPct: smallestOf(options) } }),
  judge({ measured }, options) {
    const { background, widthPx, heightPx } = measured
    if (!background || !widthPx || !heightPx) return unmeasured(measured, 'The edges of the frame')
    const { intrusions, confidence, doubts, straightening } = background
    const smallest = smallestOf(options)
    const expected =
      smallest > SMALLEST_INTRUSION_PCT ? `nothing of ${asked(smallest, ' %')} or more` : 'nothing'
    const asks = `the spec asks for ${expected} there`
    if (straightening && straightening.areaPct >= smallest)
      return {
        verdict: 'fail',
        measured: `${FILLS[straightening.fill].short}, ${listed(sidesOf(straightening))}`,
        expected,
        reason: `${straightenedText(straightening, widthPx, heightPx)}; ${asks}.`,
        fix: `Crop off ${listed(cuts(straightening.regions, widthPx, heightPx))}.`,
      }
    if (!intrusions || confidence < SURE) {
      const why = doubtSentence(intrusions ? doubts : [unknownEdges(measured), ...doubts])
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

/** Why nothing is known of the edges: without a face, or with one whose head passes for backdrop. */
function unknownEdges({ face }: Pick<Measurements, 'face'>): Doubt {
  return face?.box ? 'backdrop-not-plain' : 'no-face'
}

const FILLS: Readonly<Record<Straightening['fill'], { readonly short: string; readonly long: string }>> = {
  flat: { short: 'empty wedges', long: 'empty and filled with one color' },
  transparent: { short: 'transparent wedges', long: 'transparent' },
  smeared: { short: 'smeared wedges', long: 'smeared from the outermost pixels' },
  mirrored: { short: 'mirrored wedges', long: 'filled with the picture mirrored' },
}

function sidesOf({ regions }: Straightening): Side[] {
  return distinct(regions.map(({ side }) => side))
}

/** "The picture was rotated by 2.1° and not cropped: wedges along the top and the right, up to 31 px deep, are empty ..." */
function straightenedText(straightening: Straightening, widthPx: number, heightPx: number): string {
  const { fill, color, angleDeg, areaPct, regions } = straightening
  const deepest = Math.max(
    ...regions.map(({ side, box }) => depth(side, box) * (isLevel(side) ? heightPx : widthPx)),
  )
  const turned = angleDeg >= SHOWN_DEG
  const cause = turned
    ? `The picture was rotated by ${quantity(angleDeg, '°')} and not cropped`
    : 'The canvas is larger than the picture'
  const sides = listed(sidesOf(straightening).map((side) => `the ${side}`))
  const paint = color ? `${FILLS[fill].long} (sRGB ${color.map(Math.round).join(', ')})` : FILLS[fill].long
  const most = `up to ${Math.ceil(deepest)} px deep (${quantity(areaPct, ' %')} of the frame)`
  return `${cause}: ${turned ? 'wedges' : 'strips'} along ${sides}, ${most}, are ${paint}`
}

/** Least angle that is told, degrees. @choice what is less is 0.0 when it is rounded */
const SHOWN_DEG = 0.05

function smallestOf(options: Static<typeof Options>): number {
  return options === true ? SMALLEST_INTRUSION_PCT : options['smallest-pct']
}

/** "a region of 40 x 50 px at the left, from 0 px right and 0 px down (0.5 % of the frame)" */
function placeText({ side, box, areaPct }: Intrusion, widthPx: number, heightPx: number): string {
  const size = sizeText({
    widthPx: Math.round(box.width * widthPx),
    heightPx: Math.round(box.height * heightPx),
  })
  const from = `${Math.round(box.x * widthPx)} px from the left and ${Math.round(box.y * heightPx)} px from the top`
  return `a region of ${size} at the ${side} edge, ${from} (${quantity(areaPct, ' %')} of the frame)`
}

type Side = Intrusion['side']

/** What has to go from each side for all of them to be out of the frame: "57 px from the left". */
function cuts(
  found: readonly Pick<Intrusion, 'side' | 'box'>[],
  widthPx: number,
  heightPx: number,
): string[] {
  return distinct(found.map(({ side }) => side)).map((side) => {
    const most = Math.max(...found.filter((each) => each.side === side).map(({ box }) => depth(side, box)))
    return `${pixels(100 * most, isLevel(side) ? heightPx : widthPx)} from the ${side}`
  })
}

function isLevel(side: Side): boolean {
  return side === 'top' || side === 'bottom'
}

function depth(side: Side, { x, y, width, height }: Intrusion['box']): number {
  if (side === 'top') return y + height
  if (side === 'bottom') return 1 - y
  return side === 'left' ? x + width : 1 - x
}

function distinct<T>(values: readonly T[]): T[] {
  return [...new Set(values)]
}
