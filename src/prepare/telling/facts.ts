import { HALO_LEAST_EYE_DISTANCE_PX } from '../../measure/schema/gates.ts'
import { formatName } from '../../rules/judging/format-names.ts'
import { sizeText } from '../../text/size.ts'
import type { Making } from '../ledger/prepared.ts'
import type { PlannedFile } from '../planning/plan.ts'

/** What was done to make a file: its crop, its color, its quality. */
export function madeFacts(making: Making): string[] {
  const { format, quality, colorSpace, bitsPerChannel, outOfGamutPct, sharpening } = making
  return [
    cropText(making),
    `${formatName(format)}, ${colorSpace}, ${bitsPerChannel} bits`,
    ...(quality === null ? [] : [`quality ${quality}`]),
    ...(sharpening ? [sharpeningText(sharpening)] : []),
    ...gamutTexts(outOfGamutPct),
  ]
}

function sharpeningText({ amount, haloPct }: NonNullable<Making['sharpening']>): string {
  if (haloPct === null)
    return `not sharpened: halos can't be measured at the eyes, which takes ${HALO_LEAST_EYE_DISTANCE_PX} px between them and nothing before them`
  const halos = `halos of ${haloPct.toFixed(0)} %`
  return amount === 0 ? `not sharpened (${halos})` : `sharpened by ${amount.toFixed(2)} (${halos})`
}

function gamutTexts(outOfGamutPct: Making['outOfGamutPct']): string[] {
  if (outOfGamutPct === null) return ["converted perceptually by its profile's tables"]
  return outOfGamutPct >= 0.05 ? [`${outOfGamutPct.toFixed(1)} % of the pixels out of gamut`] : []
}

/** What would be done to make a file. */
export function plannedFacts(planned: PlannedFile): string[] {
  const { master, order, labels, size, crop, isLossless } = planned
  const again = master.measured.format === 'jpeg' && order.format === 'jpeg' && !isLossless
  return [
    isLossless
      ? 'as it is, with new metadata'
      : cropText({ ...planned, ...size, scale: size.widthPx / crop.widthPx }),
    `${formatName(order.format)}, ${labels.colorSpace}`,
    ...(again ? ['encoded as JPEG a second time'] : []),
  ]
}

function cropText({
  turnDeg,
  crop,
  scale,
  tight,
}: Pick<Making, 'turnDeg' | 'crop' | 'scale' | 'tight'>): string {
  const { leftPx, topPx } = crop
  const turned = turnDeg === 0 ? '' : `turned by ${turnDeg.toFixed(1)}°, `
  const scaled = scale === 1 ? '' : `, scaled to ${(100 * scale).toFixed(1)} %`
  return `${turned}crop ${sizeText(crop)} at left ${leftPx}, top ${topPx}${scaled}${tight ? ' (only just fits)' : ''}`
}
