import type { Conflict, Demand } from '../../framing/advice.ts'
import type { Size } from '../../framing/ask.ts'
import type { CropTold, Missing } from '../../framing/crop-box.ts'
import { SURE } from '../../measure/schema/confidence.ts'
import type { Measurements } from '../../measure/schema/measurements.ts'
import { capitalized } from '../../text/capitalized.ts'
import { listed } from '../../text/quantity.ts'
import { sizeText } from '../../text/size.ts'

export interface CropFix {
  /** Null when the rules' own fixes say it as well. */
  readonly fix: string | null
  readonly crop?: CropTold
}

export interface CropContext {
  readonly frame: Size
  /** The crop only just fits. */
  readonly tight: boolean
  readonly levelFirst: boolean
  /** The sides of the frame at which the backdrop could be extended. */
  readonly extendable: readonly Side[]
}

const SIDES = ['abovePx', 'belowPx', 'leftPx', 'rightPx'] as const
export type Side = (typeof SIDES)[number]

/**
 * Share of a side from which on the backdrop could be extended there, %.
 * @choice no source: hair and noise may cover 2 % of an edge of plain backdrop.
 */
const BACKDROP_ENDS_PCT = 98

/** The sides of the frame at which the backdrop could be extended. */
export function extendableSides({ background }: Pick<Measurements, 'background'>): Side[] {
  if (!background || background.confidence < SURE) return []
  const { topPct, rightPct, bottomPct, leftPct } = background.edges
  const sides = { abovePx: topPct, belowPx: bottomPct, leftPx: leftPct, rightPx: rightPct }
  return SIDES.filter((side) => sides[side] >= BACKDROP_ENDS_PCT)
}

/** The one crop in words; where it reaches beyond the frame or is too small, what is to be cropped instead of the file. */
export function cropFix(crop: CropTold, context: CropContext): CropFix {
  const { frame, tight, levelFirst, extendable } = context
  const { scaleTo, missing } = crop
  const isShort =
    scaleTo !== undefined && (scaleTo.widthPx > crop.widthPx || scaleTo.heightPx > crop.heightPx)
  if (sizeText(crop) === sizeText(frame) && !missing) {
    if (!scaleTo || levelFirst || isShort) return { fix: null }
    return { fix: `Scale the whole picture to ${sizeText(scaleTo)}; its framing is right.`, crop }
  }
  const part = `${sizeText(crop)} starting ${placeText(crop)}`
  const scale = scaleTo ? `, ${isShort ? 'and export that at' : 'then scale to'} ${sizeText(scaleTo)}` : ''
  const [first, ...details] = missing
    ? [
        `go back to the uncropped frame and take ${part} of this file${scale}.`,
        missingText(missing, extendable),
      ]
    : isShort
      ? [`go back to the full-size original and take ${part} of this file${scale}.`, shortText(crop, scaleTo)]
      : [`crop to ${part}${scale}.`]
  const lead = levelFirst ? `${LEVEL_FIRST} ${first}` : capitalized(first)
  const after = tight ? ['It only just fits: check again afterward.'] : []
  return { fix: [lead, ...details, ...after].join(' '), crop }
}

const LEVEL_FIRST =
  'Level the head first (see tilt) and check again, since rotating changes the crop; as it is now,'

function placeText({ leftPx, topPx }: CropTold): string {
  const down = topPx < 0 ? pxText(-topPx, 'above') : pxText(topPx, 'below')
  const across = leftPx < 0 ? pxText(-leftPx, 'left of') : pxText(leftPx, 'right of')
  return `${listed([...down, ...across]) || 'at'} the top left corner`
}

const PLACES: Readonly<Record<Side, string>> = {
  abovePx: 'above the head',
  belowPx: 'at the bottom',
  leftPx: 'on the left',
  rightPx: 'on the right',
}

/** What is missing, and whether the backdrop could be extended instead. */
function missingText(missing: Missing, extendable: readonly Side[]): string {
  const lacks = `This file lacks ${lackText(missing)}`
  const { open, closed } = endsAt(missing, extendable)
  if (closed.length === 0) return `${lacks}; the backdrop could be extended there instead.`
  if (open.length === 0) return `${lacks}.`
  return `${lacks}; the backdrop could be extended ${placesText(open)}, but not ${placesText(closed)}.`
}

/** What is missing at which side: "42 px above the head and 37 px at the bottom". */
export function lackText(missing: Missing): string {
  return listed(lackingSides(missing).map((side) => `${missing[side]} px ${PLACES[side]}`))
}

/** The sides at which something is missing: those at which the backdrop alone ends, and those at which something else does. */
export function endsAt(
  missing: Missing,
  extendable: readonly Side[],
): { readonly open: readonly Side[]; readonly closed: readonly Side[] } {
  const lacking = lackingSides(missing)
  return {
    open: lacking.filter((side) => extendable.includes(side)),
    closed: lacking.filter((side) => !extendable.includes(side)),
  }
}

function lackingSides(missing: Missing): Side[] {
  return SIDES.filter((side) => missing[side] > 0)
}

function placesText(sides: readonly Side[]): string {
  return listed(sides.map((side) => PLACES[side]))
}

function shortText(crop: Size, asked: Size): string {
  const missing = listed([
    ...pxText(asked.widthPx - crop.widthPx, 'of width'),
    ...pxText(asked.heightPx - crop.heightPx, 'of height'),
  ])
  return `This file lacks ${missing} for that.`
}

/** Why no crop meets some rules together, and what to do about that. */
export function conflictFix({ kind, demands }: Conflict): string {
  const named = listed(demands.map(demandText))
  if (kind === 'spec')
    return `No picture meets ${named}${demands.length > 1 ? ' together' : ''}: correct the spec.`
  return demands.length > 1
    ? `No crop, even of a wider frame, meets ${named} together: choose another frame of the sitter, or ${demands.includes('backdrop-edge') ? 'retouch what intrudes at the edge' : 'widen the limits in the spec'}.`
    : `No crop in whole px meets ${named}: widen the limits in the spec.`
}

function pxText(px: number, where: string): string[] {
  return px > 0 ? [`${px} px ${where}`] : []
}

function demandText(demand: Demand): string {
  return demand === 'whole-head' ? 'the whole head in the frame' : demand
}
