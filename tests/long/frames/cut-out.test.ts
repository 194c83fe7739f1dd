import sharp from 'sharp'
import { expect, test } from 'vitest'
import type { Frame } from '../../../examples/drawing/frame.ts'
import { SITTERS } from '../../../examples/drawing/sitters.ts'
import type { Spec } from '../../../src/brand-spec/spec.ts'
import type { FrameCrop } from '../../../src/frames/frame-report.ts'
import { judgeFrame } from '../../../src/frames/judge-frame.ts'
import { judgeFile } from '../../../src/judge/judge.ts'
import { RULES } from '../../../src/rules/index.ts'
import { drawnPortrait } from '../../drawn.ts'
import { measured, type Picture } from '../../framing/measured-picture.ts'
import { SPEC } from '../../judge/sample.ts'
import { GOOD_NAME } from '../../rules/judging/cases.ts'

// From pixels to pixels: a drawn frame is judged, each crop that it has room for is cut out, and that is judged by the whole spec.

const ORDER: Spec = {
  ...SPEC,
  naming: null,
  advisory: [],
  settings: {
    'background-lightness': { min: 85 },
    'background-unevenness': { max: 5 },
    'background-plain': true,
    'backdrop-edge': { 'smallest-pct': 0.5 },
    tilt: { max: 2.5 },
    centering: { max: 4 },
  },
  deliverables: {
    print: {
      'aspect-ratio': '4:5',
      'pixel-size': { width: 480, height: 600 },
      headroom: { min: 5, max: 13 },
      'eye-line': { min: 30, max: 46 },
      'head-height': { min: 40, max: 54 },
    },
    web: { 'aspect-ratio': '1:1', 'pixel-size': { width: { min: 480 } }, headroom: { min: 4, max: 14 } },
  },
}

const VARIANTS: readonly Partial<Frame>[] = [
  {},
  { tiltDeg: 5, offsetX: 0.06 },
  { tiltDeg: -4, offsetX: -0.05 },
]
const CASES = SITTERS.slice(0, 3).flatMap(({ look, family }) =>
  VARIANTS.map((variant) => ({ look, variant, name: `${family}, ${variant.tiltDeg ?? 0}°` })),
)

/** The crop as it would be made: turned on a canvas that grows with the picture, cut out, sized. */
async function cut({ data, width, height }: Picture, crop: FrameCrop): Promise<Picture> {
  const { turnDeg, canvas, leftPx, topPx, widthPx, heightPx, scaleTo } = crop
  const turned = await sharp(data, { raw: { width, height, channels: 3 } })
    .rotate(turnDeg, { background: '#f0f' })
    .raw()
    .toBuffer({ resolveWithObject: true })
  const { info } = turned
  const out = await sharp(turned.data, { raw: { width: info.width, height: info.height, channels: 3 } })
    .extract({
      left: leftPx + Math.round((info.width - canvas.widthPx) / 2),
      top: topPx + Math.round((info.height - canvas.heightPx) / 2),
      width: widthPx,
      height: heightPx,
    })
    .resize(scaleTo?.widthPx ?? widthPx, scaleTo?.heightPx ?? heightPx, { fit: 'fill' })
    .raw()
    .toBuffer({ resolveWithObject: true })
  return { data: out.data, width: out.info.width, height: out.info.height }
}

test('every crop that a drawn frame has room for passes the whole spec once it is cut out', async () => {
  const seen = { rooms: 0, turned: 0 }
  const wrong: string[] = []
  for (const { look, variant, name } of CASES) {
    const drawn = await drawnPortrait(look, {
      ...{ widthPx: 1152, heightPx: 1344, placement: { crownY: 0.2, chinY: 0.56 } },
      ...{ backdrop: { color: 236 }, key: { side: 'left', ratioStops: 0.6 }, noise: 0.6, ...variant },
    })
    const picture = { data: Buffer.from(drawn.pixels), width: drawn.widthPx, height: drawn.heightPx }
    const report = judgeFrame(await measured(picture), ORDER)
    for (const room of report.rooms) {
      if (room.verdict !== 'pass' || !room.crop) continue
      seen.rooms++
      seen.turned += room.crop.turnDeg === 0 ? 0 : 1
      const outcomes = judgeFile(
        {
          measured: await measured(await cut(picture, room.crop)),
          name: { ...GOOD_NAME, deliverable: room.deliverable },
        },
        ORDER,
        RULES,
      )
      const missed = outcomes.filter(({ verdict }) => verdict === 'fail' || verdict === 'unsure')
      wrong.push(
        ...missed.map(
          ({ rule, verdict, reason }) => `${name}, ${room.deliverable}: ${rule} ${verdict}. ${reason}`,
        ),
      )
    }
  }
  expect(wrong).toEqual([])
  expect(seen).toEqual({ rooms: 2 * CASES.length, turned: (4 * CASES.length) / 3 })
})
