import { type Static, Type } from '@sinclair/typebox'

const closed = { additionalProperties: false }

/**
 * What the photographer is to change before the next frame. The sentences are made in report/frames.
 *
 * - `step-back`, `step-closer`: or zoom; by `pct` of the distance
 * - `aim`: the camera, to a `side`; by `pct` of the frame's height or width
 * - `turn-camera`: between upright and lying
 * - `level-camera`: or the head; by `deg`, to a `side`
 * - `clear-edge`: what stands at a `side` of the frame
 * - `too-few-pixels`: this camera can't give the size ordered at any distance
 * - `pose`: `rules` that can't be met together for this head
 * - `spec`: `rules` that contradict each other for any picture
 * - `light-backdrop`: by `stops`, positive for more light; at a `side` where that is known
 * - `even-backdrop`, `neutral-backdrop` (`hueDeg` is that of the tint), `plain-backdrop`
 * - `one-person`
 * - `turn-head`, `nod-head`: by `deg`, to a `side` of the frame, or up or down
 * - `focus`: on the eyes
 * - `tip-spectacles`
 * - `face-light`: less of it (`side` down) or more (up)
 * - `move-key`: the key light to a `side`, in the frame; none for flat light
 * - `fill`: by `stops`, positive for more fill
 * - `white-balance`: `hueDeg` is that of skin
 * - `copy-again`: the file is damaged
 * - `shoot-again`: see what the rule says
 * - `check`: by eye, since it could not be measured with confidence
 */
const CODES = [
  'copy-again',
  'one-person',
  'spec',
  'too-few-pixels',
  'turn-camera',
  'step-back',
  'step-closer',
  'aim',
  'clear-edge',
  'level-camera',
  'pose',
  'turn-head',
  'nod-head',
  'focus',
  'tip-spectacles',
  'face-light',
  'move-key',
  'fill',
  'light-backdrop',
  'even-backdrop',
  'plain-backdrop',
  'neutral-backdrop',
  'white-balance',
  'shoot-again',
  'check',
] as const
export type AdviceCode = (typeof CODES)[number]

const SIDES = ['left', 'right', 'up', 'down', 'clockwise', 'counterclockwise', 'none'] as const
export type AdviceSide = (typeof SIDES)[number]

export const Advice = Type.Object(
  {
    code: Type.Unsafe<AdviceCode>(Type.Union(CODES.map((code) => Type.Literal(code)))),
    rule: Type.String({ description: 'The rule that asks for it; crop-room where the framing does.' }),
    deliverables: Type.Array(Type.String(), {
      description: 'The deliverables that need it; none where the spec has none.',
    }),
    advisory: Type.Boolean({ description: 'The frame is usable without it.' }),
    side: Type.Optional(Type.Unsafe<AdviceSide>(Type.Union(SIDES.map((side) => Type.Literal(side))))),
    pct: Type.Optional(Type.Number({ minimum: 0 })),
    deg: Type.Optional(Type.Number({ minimum: 0 })),
    stops: Type.Optional(Type.Number()),
    hueDeg: Type.Optional(Type.Number()),
    rules: Type.Optional(Type.Array(Type.String())),
  },
  { ...closed, description: 'What to change before the next frame.' },
)
export type Advice = Static<typeof Advice>

/** What an advice says, without who asks for it. */
export type Change = Omit<Advice, 'rule' | 'deliverables' | 'advisory'>

/**
 * What comes first in front: what makes a frame of no use, then the framing, the pose, the light. What several deliverables or rules ask
 * for alike is told once, as much of it as any of them needs.
 */
export function firstThingsFirst(advice: readonly Advice[]): Advice[] {
  const told = new Map<string, Advice>()
  for (const one of advice) {
    const key = JSON.stringify([one.code, one.rule, one.side, one.advisory, Math.sign(one.stops ?? 0)])
    const other = told.get(key)
    told.set(key, other ? both(other, one) : one)
  }
  return [...told.values()].toSorted(
    (a, b) => Number(a.advisory) - Number(b.advisory) || CODES.indexOf(a.code) - CODES.indexOf(b.code),
  )
}

function both(a: Advice, b: Advice): Advice {
  const size = ({ pct = 0, deg = 0, stops = 0 }: Advice) => pct + deg + Math.abs(stops)
  const larger = size(b) > size(a) ? b : a
  return { ...larger, deliverables: [...new Set([...a.deliverables, ...b.deliverables])] }
}
