import type { SessionFrame } from '../../src/session/drift.ts'
import type { DriftTrait } from '../../src/session/drift-traits.ts'
import { gaussian } from '../random.ts'

const MINUTE = 60_000
/** When the sessions begin. */
const START = Date.UTC(2027, 2, 1, 9, 0)

/** A session of sitters with so many frames each, and what befalls it. */
export interface Course {
  readonly seed: number
  readonly sitters: number
  readonly framesEach: number
  /** How much frames scatter, as a multiple of a usual session. */
  readonly scatter: number
  /** From this frame on, so much is added to a trait. */
  readonly step?: { readonly at: number; readonly trait: DriftTrait; readonly by: number }
}

// Standard deviations from frame to frame, and from sitter to sitter.
const SCATTER: Readonly<Record<DriftTrait, readonly [number, number]>> = {
  'backdrop-lightness': [0.025, 0.025],
  'backdrop-tint-a': [0.12, 0.15],
  'backdrop-tint-b': [0.15, 0.2],
  'backdrop-unevenness': [0.2, 0.2],
  'key-ratio': [0.05, 0.06],
  'head-size': [2, 4.5],
  'eye-line': [1, 1],
}
const LEVEL: Readonly<Record<DriftTrait, number>> = {
  'backdrop-lightness': -0.3,
  'backdrop-tint-a': 0,
  'backdrop-tint-b': 1,
  'backdrop-unevenness': 2,
  'key-ratio': 0.6,
  'head-size': 330,
  'eye-line': 45,
}
/** One frame in so many has hair, a hand or a shadow where it is measured. */
const ODD_EVERY = 40

export function sessionOf({ seed, sitters, framesEach, scatter, step }: Course): SessionFrame[] {
  const normal = gaussian(seed)
  return Array.from({ length: sitters }).flatMap((_, sitter) => {
    const own = traitsBy((trait) => scatter * SCATTER[trait][1] * normal())
    return Array.from({ length: framesEach }, (_, frame): SessionFrame => {
      const index = sitter * framesEach + frame
      const odd = index % ODD_EVERY === ODD_EVERY - 1 ? 4 : 1
      return {
        file: `frame-${index}.jpg`,
        at: START + index * MINUTE,
        sitter: `sitter ${sitter}`,
        traits: traitsBy(
          (trait) =>
            LEVEL[trait] +
            own[trait] +
            odd * scatter * SCATTER[trait][0] * normal() +
            (step?.trait === trait && index >= step.at ? step.by : 0),
        ),
      }
    })
  })
}

function traitsBy(value: (trait: DriftTrait) => number): Record<DriftTrait, number> {
  const traits = Object.keys(LEVEL) as DriftTrait[]
  return Object.fromEntries(traits.map((trait) => [trait, value(trait)])) as Record<DriftTrait, number>
}
