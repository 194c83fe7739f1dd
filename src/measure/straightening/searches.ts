import { CANVASES, type Turned } from './canvas.ts'
import type { Care, Search } from './turn-search.ts'

/** Tangents of the angles that are looked for in a copy, and their steps. @choice from 0.23 to 6.1 degrees, by a pixel at the ends of a side */
const SLOPES = { least: 2, most: 53, step: 0.002 }

/** Tangents that are tried around a candidate there. @choice half of the steps in fours */
const CLOSER = [-0.001, -0.0005, 0, 0.0005, 0.001]
/** How all turns are looked at there. @choice as little as leaves the right one among the candidates; no source */
const COARSE: Care = { size: 16, stride: 8, reach: 12 }
/** How the candidates are. @choice clothes and shoulders go on over tens of px, chance doesn't; no source */
const FINE: Care = { size: 16, stride: 4, reach: 48 }

/** All turns, in a copy of the picture. */
export const IN_COPY: Search = {
  isThin: false,
  turns: CANVASES.flatMap((canvas) =>
    Array.from({ length: 2 * SLOPES.most + 1 }, (_, i) => ({
      slope: (i - SLOPES.most) * SLOPES.step,
      canvas,
    })),
  ).filter(({ slope }) => Math.abs(slope) >= SLOPES.least * SLOPES.step),
  closer: CLOSER,
  coarse: COARSE,
  fine: FINE,
}

/** How deep thin wedges are at their deepest, px. @choice deeper ones are seen in the copy, too */
export const THIN_DEEPEST_PX = 24
/** Largest tangent of thin wedges. @choice 1.1 degrees; larger ones are found in the copy, and flat ones side by side, in pictures that were cropped afterward, too */
const MOST_SLOPE = 0.02
/** Smallest tangent. @choice 1.5 px in a picture of 1000; no source */
const LEAST_SLOPE = 0.003

/**
 * Turns that leave thin wedges.
 * @param longest length of the picture's longer sides, px
 * @param stepPx by how much the deepest place of a wedge changes from one turn to the next
 */
export function thinTurns(longest: number, stepPx: number): Turned[] {
  const half = longest / 2
  const step = stepPx / half
  return CANVASES.flatMap((canvas) => {
    const most = Math.min(MOST_SLOPE, THIN_DEEPEST_PX / (canvas === 'kept' ? half : 2 * half))
    const least = Math.max(LEAST_SLOPE, step)
    const slopes = Array.from(
      { length: Math.max(0, Math.floor((most - least) / step) + 1) },
      (_, i) => least + i * step,
    )
    return slopes.flatMap((slope) => [-1, 1].map((sign) => ({ slope: sign * slope, canvas })))
  })
}

/** The same of a candidate, in steps. @choice quarters */
const CLOSER_STEPS = [-0.5, -0.25, 0, 0.25, 0.5]
/** How all turns that leave thin wedges are looked at. @choice as far as the candidates are, since there is little to read; no source */
const THIN_COARSE: Care = { size: 16, stride: 4, reach: THIN_DEEPEST_PX }
/** How the candidates are. @choice twice as closely */
const THIN_FINE: Care = { ...THIN_COARSE, stride: 2 }
/** Length of a side up to which they are read so, px; of longer ones as many positions. @choice more only cost time */
const READ_PX = 1400

/** By how much the deepest place of a wedge changes from one turn to the next, px. @choice the candidates are looked at in quarters of it */
const STEP_PX = 1

/** Turns that leave thin wedges, in a picture at full size. */
export function thinSearch(longest: number): Search {
  const step = STEP_PX / (longest / 2)
  const times = Math.ceil(longest / READ_PX)
  const wider = ({ size, stride, reach }: Care): Care => ({
    size: times * size,
    stride: times * stride,
    reach,
  })
  return {
    isThin: true,
    turns: thinTurns(longest, STEP_PX),
    closer: CLOSER_STEPS.map((steps) => steps * step),
    coarse: wider(THIN_COARSE),
    fine: wider(THIN_FINE),
  }
}
