import type { Backdrop, Frame, Wall } from './frame.ts'
import type { Look } from './look.ts'
import { SITTERS } from './sitters.ts'

export type HairGroup = 'bald' | 'close' | 'long' | 'big' | 'covered'

/** A portrait whose truth is known, to measure against. */
export interface AccuracyCase {
  readonly name: string
  /** Index into the Monk tones, 0 lightest to 9 darkest. */
  readonly toneIndex: number
  readonly hairGroup: HairGroup
  readonly look: Look
  readonly frame: Frame
  /** False when no plain backdrop is there to be measured. */
  readonly plain: boolean
}

export function hairGroupOf(look: Look): HairGroup {
  if (look.headwear !== 'none') return 'covered'
  switch (look.hair) {
    case 'bald':
    case 'receding':
      return 'bald'
    case 'afro':
    case 'curls':
      return 'big'
    case 'long':
    case 'waves':
    case 'bob':
      return 'long'
    default:
      return 'close'
  }
}

const SIZE = { widthPx: 800, heightPx: 1000 }
const WHITE = 244
const MID_GRAY = 119

/** A value that walks through `low` to `high` in `steps`, so that neighbors in the set differ. */
function spread(index: number, steps: number, low: number, high: number): number {
  return low + ((high - low) * (index % steps)) / (steps - 1)
}

function plainFrame(index: number, backdrop: Backdrop): Frame {
  const crownY = spread(index * 3, 11, 0.04, 0.14)
  return {
    ...SIZE,
    placement: { crownY, chinY: crownY + spread(index * 2, 5, 0.42, 0.54) },
    offsetX: spread(index * 5, 7, -0.045, 0.045),
    tiltDeg: spread(index * 4, 9, -4, 4),
    backdrop,
    key: { side: index % 2 === 0 ? 'left' : 'right', ratioStops: spread(index, 4, 0.2, 1.1) },
    noise: spread(index, 3, 0.6, 2),
  }
}

function named(name: string, look: Look, frame: Frame, plain: boolean): AccuracyCase {
  return { name, toneIndex: look.tone, hairGroup: hairGroupOf(look), look, frame, plain }
}

/** Every sitter before white and before mid-gray paper; every third with a third of a stop of fall-off. */
const PLAIN: readonly AccuracyCase[] = SITTERS.flatMap(({ family, look }, index) =>
  [WHITE, MID_GRAY].map((color, paper) => {
    const uneven = (index + paper) % 3 === 0
    const fallOff = { stops: 1 / 3, towardsDeg: index % 2 === 0 ? 45 : 135, from: 0 }
    const frame = plainFrame(index + paper * 7, uneven ? { color, fallOff } : { color })
    return named(
      `${family}, ${paper === 0 ? 'white' : 'mid-gray'}${uneven ? ', fall-off 1/3 stop' : ''}`,
      look,
      frame,
      true,
    )
  }),
)

const WALLS: readonly Wall[] = ['bricks', 'office', 'stripes']

/** Eight sitters before walls that are not plain, of differing tones and hair. */
const UNPLAIN: readonly AccuracyCase[] = SITTERS.filter((_, index) => index % 3 === 1).map(
  ({ family, look }, index) => {
    const wall = WALLS[index % WALLS.length] ?? 'bricks'
    return named(
      `${family}, ${wall}`,
      look,
      plainFrame(index + 2, { color: wall === 'bricks' ? 200 : 228, wall }),
      false,
    )
  },
)

/**
 * Laid out as ANSI/NIST-ITL 1-2011 Update 2013, Annex E.4.3.1 asks: eyes 55 % of the height up from the bottom edge,
 * head 50 % of the width between the ears, before the 18 % gray of NISTIR 6322.
 */
const STANDARD: readonly AccuracyCase[] = SITTERS.filter((_, index) => index % 4 === 0).map(
  ({ family, look }, index) =>
    named(
      `${family}, ANSI/NIST-ITL E.4.3.1`,
      look,
      {
        ...SIZE,
        placement: { eyeY: 0.45, headWidth: 0.5 },
        backdrop: { color: MID_GRAY },
        key: { side: index % 2 === 0 ? 'right' : 'left', ratioStops: 0.2 },
        noise: 1,
      },
      true,
    ),
)

export const ACCURACY_SET: readonly AccuracyCase[] = [...PLAIN, ...UNPLAIN, ...STANDARD]
