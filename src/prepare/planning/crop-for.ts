import { turnedFrame } from '../../frames/turned-frame.ts'
import type { Conflict, Crop, CropAdvice } from '../../framing/advice.ts'
import { type Aim, aimOf } from '../../framing/aim.ts'
import type { FramingAsk, Size } from '../../framing/ask.ts'
import { solveCrop } from '../../framing/crop.ts'
import type { CropBox } from '../../framing/crop-box.ts'
import { turnedBy } from '../../framing/turned.ts'
import { unwantedAtEdge } from '../../judge/framing-ask.ts'
import { SURE } from '../../measure/schema/confidence.ts'
import type { Measurements } from '../../measure/schema/measurements.ts'
import { conflictFix, endsAt, extendableSides, lackText, type Side } from '../../rules/judging/crop-fix.ts'
import { doubtSentence } from '../../rules/judging/doubts.ts'
import { listed } from '../../text/quantity.ts'
import { sizeText } from '../../text/size.ts'
import { isAsOrdered } from './lossless.ts'
import { isFramed, type Order } from './order.ts'

/** Which part of a master a file is made from, and how large it gets. */
export interface PlannedCrop {
  /** By so much the master is turned first, degrees, positive clockwise; 0 for not at all. */
  readonly turnDeg: number
  /** In px of the master; of the canvas that holds it, where it is turned. */
  readonly crop: CropBox
  readonly size: Size
  /** It meets every limit, but without room for an error of measurement. */
  readonly tight: boolean
  /** A JPEG that is as it is ordered: only its metadata changes, and no pixel. */
  readonly isLossless: boolean
}

/**
 * The crop of a master that meets all framing rules of an order, as near to its aim as can be; a sentence when there is none.
 * @param medians of the set that the files are to be like
 * @param mostDeg up to which tilt the eyes are leveled; 0 to leave them
 */
export function cropFor(
  measured: Measurements,
  order: Order,
  medians: Aim,
  mostDeg: number,
): PlannedCrop | { readonly reason: string } {
  const { widthPx, heightPx } = measured
  if (!widthPx || !heightPx) return { reason: 'It could not be read as a picture.' }
  const turnDeg = turnFor(measured, mostDeg)
  const isLossless = turnDeg === 0 && isAsOrdered(measured, order)
  if (isLossless || !isFramed(order))
    return {
      ...{ turnDeg: 0, crop: { leftPx: 0, topPx: 0, widthPx, heightPx } },
      ...{ size: { widthPx, heightPx }, tight: false, isLossless },
    }
  const turned = turnDeg === 0 ? null : turnedBy(turnDeg, { widthPx, heightPx })
  const level = turned ? turnedFrame(measured, turned) : measured
  const solve = (ask: FramingAsk): CropAdvice => {
    const intrusions = unwantedAtEdge(level, ask['backdrop-edge']?.smallestPct ?? Infinity)
    return solveCrop(level, ask, intrusions, { aim: aimOf(ask, medians), turned })
  }
  const whole = solve(order.framing)
  const advice = 'conflicts' in whole ? solve(order.bindingFraming) : whole
  if ('doubts' in advice) return { reason: `The crop can't be computed: ${doubtSentence(advice.doubts)}.` }
  if ('conflicts' in advice) {
    const extendable = extendableSides(measured)
    return { reason: advice.conflicts.map((conflict) => conflictText(conflict, extendable)).join(' ') }
  }
  return planned(advice, turnDeg)
}

/** Tilt that is left as it is, degrees. @choice nobody sees it, and each turn resamples the picture; common practice, no source. */
const LEVEL_ENOUGH_DEG = 0.5

/** By how much a master is turned so that its eyes are level. */
function turnFor({ face }: Measurements, mostDeg: number): number {
  if (!face || face.tiltDeg === null || face.confidence < SURE) return 0
  const tilt = Math.abs(face.tiltDeg)
  return tilt <= LEVEL_ENOUGH_DEG || tilt > mostDeg ? 0 : -face.tiltDeg
}

function planned({ crop, scaleTo, tight }: Crop, turnDeg: number): PlannedCrop {
  const size = scaleTo ?? { widthPx: crop.widthPx, heightPx: crop.heightPx }
  return { turnDeg, crop, size, tight, isLossless: false }
}

/** @param extendable the sides of the master at which the backdrop could be extended */
function conflictText(conflict: Conflict, extendable: readonly Side[]): string {
  if (conflict.kind === 'pixels') {
    const { available, asked } = conflict
    return `The largest crop that meets the rest has ${sizeText(available)}, and ${sizeText(asked)} are asked; nothing is enlarged. Use a larger master.`
  }
  if (conflict.kind === 'frame') {
    const demands = listed(conflict.demands)
    const lacks = lackText(conflict)
    // Where a turned picture ends at a corner, no side tells by how much.
    if (lacks === '') return `The master is too tight for ${demands}. Use the uncropped frame.`
    const { closed } = endsAt(conflict, extendable)
    const instead = closed.length === 0 ? ', or extend the backdrop there' : ''
    return `The master lacks ${lacks} for ${demands}. Use the uncropped frame${instead}.`
  }
  return conflictFix(conflict)
}
