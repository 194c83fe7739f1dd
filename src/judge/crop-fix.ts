import type { Conflict, Crop, CropAdvice, Demand } from '../framing/advice.ts'
import type { Size } from '../framing/ask.ts'
import type { CropBox } from '../framing/crop-box.ts'
import { listed } from '../text/quantity.ts'

export interface CropFix {
  readonly fix: string
  /** The part of the picture to keep, when the fix is to crop. */
  readonly crop?: CropBox
}

/**
 * The fix of a rule that failed, with what is known of a crop: the crop in its place when one meets the rule, or
 * after it why there is none.
 * @param rule its id
 * @param own the rule's own fix
 * @param frame the picture's size, null when it is not known
 */
export function cropFix(rule: string, own: string, advice: CropAdvice, frame: Size | null): CropFix {
  const concerns = (demands: readonly Demand[]) => demands.some((demand) => demand === rule)
  if ('crop' in advice) {
    if (!concerns(advice.meets)) return { fix: own }
    return isWhole(advice.crop, frame) ? wholeFix(own, advice) : partFix(advice)
  }
  if ('doubts' in advice) return { fix: own }
  // That a file is too small as a whole is what the rule itself has said.
  const news = advice.conflicts.filter((each) => each.kind !== 'pixels' || !isWhole(each.available, frame))
  const sentences = news.filter(({ demands }) => concerns(demands)).map(conflictSentence)
  return { fix: [own, ...sentences].join(' ') }
}

function isWhole(crop: Size, frame: Size | null): boolean {
  return crop.widthPx === frame?.widthPx && crop.heightPx === frame.heightPx
}

function wholeFix(own: string, { scaleTo, levelFirst }: Crop): CropFix {
  return {
    fix:
      scaleTo && !levelFirst ? `Scale the whole picture to ${sizeText(scaleTo)}; its framing is right.` : own,
  }
}

function partFix({ crop, scaleTo, tight, levelFirst }: Crop): CropFix {
  const way = listed([...pxText(crop.leftPx, 'right'), ...pxText(crop.topPx, 'down')])
  const from = way === '' ? 'from the top left corner' : `from ${way} of the top left corner`
  const scale = scaleTo ? `, then scale to ${sizeText(scaleTo)}` : ''
  const lead = levelFirst ? `${LEVEL_FIRST} as it is now, crop` : 'Crop'
  const after = tight ? ' It only just fits: measure again afterwards.' : ''
  return { fix: `${lead} to ${sizeText(crop)} ${from}${scale}.${after}`, crop }
}

const LEVEL_FIRST = 'Level the head first (see tilt) and measure again, since turning changes the crop;'
const RETOUCH = 'retouch what reaches in at the edge'

function conflictSentence(conflict: Conflict): string {
  const { kind, demands } = conflict
  const named = listed(demands.map(demandText))
  switch (kind) {
    case 'frame':
      return `This frame lacks at least ${missingText(conflict)} for ${named}: go back to the uncropped frame, or ${demands.includes('backdrop-edge') ? RETOUCH : 'extend the backdrop'}.`
    case 'pixels':
      return pixelsSentence(conflict)
    case 'spec':
      return `No picture meets ${named}${demands.length > 1 ? ' together' : ''}: correct the spec.`
    case 'demands':
      return demands.length > 1
        ? `No crop meets ${named} together, of a wider frame either: choose another frame of the sitter, or ${demands.includes('backdrop-edge') ? RETOUCH : 'widen the limits in the spec'}.`
        : `No crop in whole px meets ${named}: widen the limits in the spec.`
  }
}

function pixelsSentence({ demands, available, asked }: Extract<Conflict, { kind: 'pixels' }>): string {
  const others = demands.filter((demand) => demand !== 'pixel-size').map(demandText)
  const crop =
    others.length > 0 ? `A crop that meets ${listed(others)}` : 'The largest crop that meets the rest'
  const missing = listed([
    ...pxText(asked.widthPx - available.widthPx, 'of width'),
    ...pxText(asked.heightPx - available.heightPx, 'of height'),
  ])
  return `${crop} has at most ${sizeText(available)} where the spec asks for ${sizeText(asked)}: ${missing} are missing.`
}

function missingText({ abovePx, belowPx, leftPx, rightPx }: Extract<Conflict, { kind: 'frame' }>): string {
  return listed([
    ...pxText(abovePx, 'above the head'),
    ...pxText(belowPx, 'at the bottom'),
    ...pxText(leftPx, 'on the left'),
    ...pxText(rightPx, 'on the right'),
  ])
}

function pxText(px: number, where: string): string[] {
  return px > 0 ? [`${px} px ${where}`] : []
}

function demandText(demand: Demand): string {
  return demand === 'whole-head' ? 'the whole head in the frame' : demand
}

function sizeText({ widthPx, heightPx }: Size): string {
  return `${widthPx} x ${heightPx} px`
}
