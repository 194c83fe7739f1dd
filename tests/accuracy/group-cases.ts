import { hairGroupOf } from '../../examples/drawing/accuracy-set.ts'
import type { Frame } from '../../examples/drawing/frame.ts'
import type { Look, Spectacles } from '../../examples/drawing/look.ts'
import { SITTERS } from '../../examples/drawing/sitters.ts'

/** One drawn sitter in two frames: as a client would want it, and with everything wrong that can be drawn. */
export interface GroupCase {
  readonly name: string
  readonly groups: readonly string[]
  readonly look: Look
  readonly good: Frame
  readonly faulty: Frame
  /** Walks from case to case, to vary by. */
  readonly index: number
}

const TONES = 10
const HEADS = ['bald', 'close', 'long', 'big', 'headscarf', 'turban', 'scrub-cap'] as const
const SIZE = { widthPx: 400, heightPx: 500 }
const SPECTACLES: readonly Spectacles[] = ['none', 'thin', 'thick']

/** Key light that the spec asks for: from the left, by so many stops. */
export const KEY_ASKED = { side: 'left', ratio: { min: 0.3, max: 1.2 } } as const

/** Each of the ten tones of the Monk scale under each kind of hair and headwear. */
export const GROUP_CASES: readonly GroupCase[] = HEADS.flatMap((head, h) => {
  const sitters = SITTERS.filter(({ look }) =>
    look.headwear === 'none' ? hairGroupOf(look) === head : look.headwear === head,
  )
  return Array.from({ length: TONES }, (_, tone) => {
    const { family, look } = pick(sitters, tone)
    const index = h * TONES + tone
    const covered = look.headwear !== 'none'
    // Half of them shaven, so that a beard does not pass for its headwear.
    const beard = (tone + h) % 2 === 0 ? look.beard : 'none'
    return {
      name: `${family}, tone ${tone + 1}, ${head}`,
      groups: [`skin ${tone + 1}`, `${covered ? 'headwear' : 'hair'} ${head}`, `beard ${beard}`],
      look: { ...look, tone, beard },
      good: goodFrame(index),
      faulty: faultyFrame(index),
      index,
    }
  })
})

/** The sitter of a case with the spectacles of its frame: the good one with and without, the faulty one always. */
export function wearing({ look, index }: GroupCase, frame: 'good' | 'faulty'): Look {
  const spectacles = frame === 'good' ? pick(SPECTACLES, index) : pick(SPECTACLES.slice(1), index)
  return { ...look, spectacles }
}

function goodFrame(index: number): Frame {
  const crownY = pick([0.06, 0.09, 0.12], index)
  return {
    ...SIZE,
    placement: { crownY, chinY: crownY + 0.66 },
    backdrop: { color: pick([244, 200, 119], index + Math.floor(index / 10)) },
    key: { side: KEY_ASKED.side, ratioStops: pick([0.5, 0.7, 0.9], index) },
    noise: 1,
    catchlights: { count: index % 2 === 0 ? 1 : 2, size: pick([1, 1.2, 1.4], index) },
  }
}

/** Lit from the other side or too hard, with a light on the lenses. */
function faultyFrame(index: number): Frame {
  const hard = index % 2 === 1
  return {
    ...goodFrame(index),
    key: { side: hard ? 'left' : 'right', ratioStops: hard ? 1.6 : 0.7 },
    lensGlare: {
      share: pick([0.15, 0.25, 0.4, 0.6], index),
      shape: pick(['umbrella', 'window', 'strip'], index),
      on: pick(['both', 'left', 'right'], index >> 1),
      at: [pick([-6, 0, 6], index), pick([-3, 0, 3], index >> 1)],
    },
  }
}

function pick<T>(list: readonly T[], index: number): T {
  return list[index % list.length] as T
}
