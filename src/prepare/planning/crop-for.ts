import type { Conflict, Crop, CropAdvice } from '../../framing/advice.ts'
import { type Aim, aimOf } from '../../framing/aim.ts'
import type { FramingAsk, Size } from '../../framing/ask.ts'
import { solveCrop } from '../../framing/crop.ts'
import type { CropBox } from '../../framing/crop-box.ts'
import { unwantedAtEdge } from '../../judge/framing-ask.ts'
import type { Measurements } from '../../measure/schema/measurements.ts'
import { conflictFix } from '../../rules/judging/crop-fix.ts'
import { doubtSentence } from '../../rules/judging/doubts.ts'
import { listed } from '../../text/quantity.ts'
import type { Order } from './order.ts'

/** Which part of a master a file is made from, and how large it gets. */
export interface PlannedCrop {
  readonly crop: CropBox
  readonly size: Size
  /** It meets every limit, but without room for an error of measurement. */
  readonly tight: boolean
}

/**
 * The crop of a master that meets all framing rules of an order, as near to its aim as can be; a sentence when there is none.
 * @param medians of the set that the files are to be like
 */
export function cropFor(
  measured: Measurements,
  { framing, bindingFraming }: Order,
  medians: Aim = {},
): PlannedCrop | { readonly reason: string } {
  const { widthPx, heightPx } = measured
  if (!widthPx || !heightPx) return { reason: 'It could not be read as a picture.' }
  // Without rules on the framing there is nothing to crop for, and no face needs to be seen.
  if (Object.keys(framing).every((rule) => rule === 'tilt'))
    return { crop: { leftPx: 0, topPx: 0, widthPx, heightPx }, size: { widthPx, heightPx }, tight: false }
  const solve = (ask: FramingAsk): CropAdvice => {
    const intrusions = unwantedAtEdge(measured, ask['backdrop-edge']?.smallestPct ?? Infinity)
    return solveCrop(measured, ask, intrusions, aimOf(ask, medians))
  }
  const whole = solve(framing)
  const advice = 'conflicts' in whole ? solve(bindingFraming) : whole
  if ('doubts' in advice) return { reason: `The crop can't be computed: ${doubtSentence(advice.doubts)}.` }
  if ('conflicts' in advice) return { reason: advice.conflicts.map(conflictText).join(' ') }
  return planned(advice)
}

function planned({ crop, scaleTo, tight }: Crop): PlannedCrop {
  return { crop, size: scaleTo ?? { widthPx: crop.widthPx, heightPx: crop.heightPx }, tight }
}

function conflictText(conflict: Conflict): string {
  if (conflict.kind === 'pixels') {
    const { available, asked } = conflict
    return `The largest crop that meets the rest has ${sizeText(available)}, and ${sizeText(asked)} are asked; nothing is enlarged. Use a larger master.`
  }
  if (conflict.kind === 'frame') {
    const sides = [
      [conflict.abovePx, 'above'],
      [conflict.belowPx, 'below'],
      [conflict.leftPx, 'on the left'],
      [conflict.rightPx, 'on the right'],
    ] as const
    const missing = sides.flatMap(([px, where]) => (px > 0 ? [`${px} px ${where}`] : []))
    return `The master lacks ${listed(missing)} for ${listed(conflict.demands)}. Use the uncropped frame, or extend the backdrop there.`
  }
  return conflictFix(conflict)
}

function sizeText({ widthPx, heightPx }: Size): string {
  return `${widthPx} x ${heightPx} px`
}
