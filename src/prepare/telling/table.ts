import { count, listed } from '../../text/quantity.ts'
import type { Prepared, PreparedFile, UnmadeFile } from '../ledger/prepared.ts'
import type { PlannedFile, PreparePlan, Unmade } from '../planning/plan.ts'

/** What was done, a few lines for each file. */
export function preparedLines({ files, unmade }: Prepared): string[] {
  return [...files.flatMap(fileLines), ...unmade.flatMap(unmadeLines), '', summary(files, unmade)]
}

/** What would be done. */
export function planLines({ files, unmade }: PreparePlan): string[] {
  const told = unmade.map(({ master, ...rest }) => ({ ...rest, master: master.found.file }))
  return [
    ...files.flatMap(plannedLines),
    ...told.flatMap(unmadeLines),
    '',
    `${count(files.length, 'file')} would be made${unmade.length > 0 ? `; ${unmade.length} would not, for the reasons above` : ''}. Nothing was written.`,
  ]
}

function fileLines({ file, master, state, reasons, made, making }: PreparedFile): string[] {
  const { widthPx, heightPx, quality, colorSpace, bitsPerChannel, outOfGamutPct } = making
  const facts = [
    cropText(making),
    `${colorSpace}, ${bitsPerChannel} bits`,
    ...(quality === null ? [] : [`quality ${quality}`]),
    ...(outOfGamutPct >= 0.05 ? [`${outOfGamutPct.toFixed(1)} % of the pixels out of gamut`] : []),
  ]
  const word = state === 'held-back' ? 'held back' : made === 'now' ? 'made' : 'unchanged'
  const size = `${widthPx} x ${heightPx} px`
  return [
    `${word.padEnd(9)}  ${file}  ${size}`,
    `           from ${master.file}: ${facts.join('; ')}`,
    ...reasons.map((reason) => `           ${reason}`),
  ]
}

function plannedLines({
  file,
  size,
  master,
  order,
  labels,
  turnDeg,
  crop,
  tight,
  isLossless,
}: PlannedFile): string[] {
  const making = { turnDeg, crop, ...size, scale: size.widthPx / crop.widthPx, tight }
  const { format } = master.measured
  const again =
    format === 'jpeg' && order.format === 'jpeg' && !isLossless ? '; encoded as JPEG a second time' : ''
  const how = isLossless ? 'as it is, without loss, with new metadata' : cropText(making)
  return [
    `to make    ${file}  ${size.widthPx} x ${size.heightPx} px`,
    `           from ${master.found.file}: ${how}; ${order.format}, ${labels.colorSpace}${again}`,
  ]
}

function cropText({
  turnDeg,
  crop,
  scale,
  tight,
}: Pick<PreparedFile['making'], 'turnDeg' | 'crop' | 'scale' | 'tight'>): string {
  const { leftPx, topPx, widthPx, heightPx } = crop
  const scaled = scale === 1 ? '' : `, scaled by ${scale.toFixed(3)}`
  const turned = turnDeg === 0 ? '' : `turned by ${turnDeg.toFixed(1)}°, `
  return `${turned}crop ${widthPx} x ${heightPx} px from ${leftPx}, ${topPx}${scaled}${tight ? ' (only just fits)' : ''}`
}

function unmadeLines({
  master,
  deliverable,
  kind,
  reason,
}: UnmadeFile | (Omit<Unmade, 'master'> & { master: string })): string[] {
  const word = kind === 'question' ? 'question' : 'not made'
  return [
    `${word.padEnd(9)}  ${master}${deliverable === null ? '' : ` for ${deliverable}`}`,
    `           ${reason}`,
  ]
}

function summary(files: readonly PreparedFile[], unmade: readonly UnmadeFile[]): string {
  const of = (test: (file: PreparedFile) => boolean) => files.filter(test).length
  const heldBack = of(({ state }) => state === 'held-back')
  const parts = [
    `${count(files.length - heldBack, 'file')} delivered`,
    `${of(({ made }) => made === 'now')} made now`,
    ...(heldBack > 0 ? [`${heldBack} held back`] : []),
    ...(unmade.length > 0 ? [`${unmade.length} not made`] : []),
  ]
  return `${listed(parts)}.`
}
