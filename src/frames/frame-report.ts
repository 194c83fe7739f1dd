import { type Static, Type } from '@sinclair/typebox'
import { CropBox } from '../framing/crop-box.ts'
import { Verdict as FileVerdict } from '../judge/verdict.ts'
import { Doubt } from '../measure/schema/common.ts'
import { Outcome, Verdict } from '../rules/contract/outcome.ts'
import { Advice } from './advice.ts'

const closed = { additionalProperties: false }
const Size = Type.Object(
  { widthPx: Type.Integer({ minimum: 1 }), heightPx: Type.Integer({ minimum: 1 }) },
  closed,
)
const Deliverables = Type.Array(Type.String(), {
  description: 'The deliverables that it holds for; none where the spec has none.',
})

const { waiver: _waiver, known: _known, ...outcome } = Outcome.properties

/** What a rule says that no crop changes, once for all deliverables that ask the same. */
export const SceneOutcome = Type.Object({ ...outcome, deliverables: Deliverables }, closed)
export type SceneOutcome = Static<typeof SceneOutcome>

/** A crop of the frame at its full size, once that is turned. */
export const FrameCrop = Type.Object(
  {
    turnDeg: Type.Number({
      description:
        'Turn the frame by so many degrees first, positive clockwise, about its middle, on a canvas that grows with it; 0 for a frame that is level enough.',
    }),
    canvas: Type.Object(Size.properties, { ...closed, description: 'The size of the frame, once turned.' }),
    ...CropBox.properties,
    scaleTo: Type.Optional(
      Type.Object(Size.properties, {
        ...closed,
        description: 'The size to deliver it at; absent where its own size is right.',
      }),
    ),
  },
  { ...closed, description: 'The crop in px of the frame at its full size, from its top left corner.' },
)
export type FrameCrop = Static<typeof FrameCrop>

/** Whether a deliverable can be cropped from the frame. */
export const CropRoom = Type.Object(
  {
    deliverable: Type.Union([Type.String(), Type.Null()], {
      description: 'Null where the spec has no deliverables.',
    }),
    verdict: Type.Unsafe<Static<typeof Verdict>>(
      Type.Union(Verdict.anyOf, {
        description:
          '`pass`: a crop meets every rule on the framing, whatever the errors of measuring. `unsure`: only if they are small. `skip`: nothing is asked, or another rule tells that there is no face.',
      }),
    ),
    rules: Type.Array(Type.String(), { description: 'The rules that the crop is to meet.' }),
    warned: Type.Array(Type.String(), {
      description: 'Rules that only warn and that the crop does not meet, since none does.',
    }),
    crop: Type.Union([FrameCrop, Type.Null()], {
      description: 'The largest crop that meets the rules; null when none surely or perhaps does.',
    }),
    pixelsPct: Type.Union([Type.Number({ minimum: 0 }), Type.Null()], {
      description:
        'The edge of the largest crop in percent of the least that is ordered; null without a crop or where no pixels are ordered.',
    }),
    doubts: Type.Array(Doubt, { description: 'Why it is unsure, when a measurement is to blame.' }),
  },
  closed,
)
export type CropRoom = Static<typeof CropRoom>

/** What the frame is nearest to fail, or nearest to pass. */
export const Nearest = Type.Object(
  {
    rule: Type.String({ description: 'Id of the rule, or crop-room.' }),
    deliverables: Deliverables,
    marginPct: Type.Number({
      maximum: 100,
      description:
        'How far it is inside its limits: 100 in the middle of a range or far from a single limit, 0 at a limit, negative beyond it.',
    }),
  },
  closed,
)
export type Nearest = Static<typeof Nearest>

/** What a brand spec says of a frame as the camera made it. Plain JSON. */
export const FrameReport = Type.Object(
  {
    file: Type.String(),
    size: Type.Union([Size, Type.Null()], {
      description: 'The full size of the frame; null when unreadable.',
    }),
    verdict: Type.Union(FileVerdict.anyOf, {
      description: 'The worst of all that is not advisory: can every deliverable be made from this frame?',
    }),
    scene: Type.Array(SceneOutcome),
    rooms: Type.Array(CropRoom),
    advice: Type.Array(Advice, { description: 'What to change, what comes first in front.' }),
    nearest: Type.Union([Nearest, Type.Null()], {
      description: 'Of all that is measured in numbers and not advisory; null when nothing is.',
    }),
  },
  closed,
)
export type FrameReport = Static<typeof FrameReport>
