import type { Size } from '../../framing/ask.ts'
import type { CropBox } from '../../framing/crop-box.ts'
import { placeBefore, turnedBy } from '../../framing/turned.ts'
import type { Place, ShownFile, ShownMaster } from '../../report/html/masters/shown-master.ts'
import type { Pictures } from '../../report/html/pictures.ts'
import { byCodePoint } from '../../text/code-points.ts'
import { sizeText } from '../../text/size.ts'
import type { Prepared } from '../ledger/prepared.ts'
import type { PreparePlan } from '../planning/plan.ts'
import type { MeasuredMaster } from '../planning/whose.ts'
import { madeFacts, plannedFacts } from './facts.ts'

/** The masters that a plan is about, each once. */
export function mastersOf({ files, unmade }: PreparePlan): MeasuredMaster[] {
  const all = [...files, ...unmade].map(({ master }) => [master.found.file, master] as const)
  return [...new Map(all).values()]
}

/**
 * Masters with the crops of their files, to be shown.
 * @param prepared what was made; null when nothing was, and the plan is all there is
 */
export function shownMasters(
  plan: PreparePlan,
  prepared: Prepared | null,
  pictures: Pictures,
): ShownMaster[] {
  const masters = new Map(mastersOf(plan).map((one) => [one.found.file, one]))
  const sizeOf = (master: string) => sizeIn(masters.get(master))
  const files = prepared ? filesOf(prepared, sizeOf) : plannedOf(plan, sizeOf)
  const names = [...new Set(files.map(([master]) => master))].sort(byCodePoint)
  return names.map((file) => ({
    file,
    size: sizeOf(file),
    picture: pictures.get(file)?.thumbnail ?? null,
    files: files.flatMap(([master, one]) => (master === file ? [one] : [])),
  }))
}

type SizeOf = (master: string) => Size | null
type Of = readonly [master: string, file: ShownFile]

function filesOf({ files, unmade }: Prepared, sizeOf: SizeOf): Of[] {
  return [
    ...files.map(({ file, deliverable, master, state, made, making, reasons, doubts = [] }): Of => {
      const isNow = made === 'now'
      return [
        master.file,
        {
          ...{ file, deliverable, reasons: [...reasons, ...doubts] },
          state: state === 'held-back' ? state : isNow ? 'made' : 'kept',
          corners: cornersOf(making.crop, making.turnDeg, sizeOf(master.file)),
          facts: [sizeText(making), ...madeFacts(making)],
        },
      ]
    }),
    ...unmade.map((one): Of => [one.master, unmadeOf(one)]),
  ]
}

function plannedOf({ files, unmade }: PreparePlan, sizeOf: SizeOf): Of[] {
  return [
    ...files.map((one): Of => {
      const { file, master, order, crop, turnDeg, size } = one
      return [
        master.found.file,
        {
          ...{ file, deliverable: order.deliverable, reasons: [], state: 'planned' },
          corners: cornersOf(crop, turnDeg, sizeOf(master.found.file)),
          facts: [sizeText(size), ...plannedFacts(one)],
        },
      ]
    }),
    ...unmade.map(({ master, ...one }): Of => [master.found.file, unmadeOf(one)]),
  ]
}

function unmadeOf({
  deliverable,
  kind,
  reason,
}: Pick<Prepared['unmade'][number], 'deliverable' | 'kind' | 'reason'>): ShownFile {
  return { state: kind, deliverable, file: null, corners: [], facts: [], reasons: [reason] }
}

function sizeIn(master: MeasuredMaster | undefined): Size | null {
  const { widthPx, heightPx } = master?.measured ?? {}
  return widthPx && heightPx ? { widthPx, heightPx } : null
}

/** Of a crop, on the master as it is displayed, which may have been turned first. */
function cornersOf(
  { leftPx, topPx, widthPx, heightPx }: CropBox,
  turnDeg: number,
  size: Size | null,
): Place[] {
  if (!size) return []
  const [right, bottom] = [leftPx + widthPx, topPx + heightPx]
  const corners = [
    { x: leftPx, y: topPx },
    { x: right, y: topPx },
    { x: right, y: bottom },
    { x: leftPx, y: bottom },
  ]
  const turned = turnedBy(turnDeg, size)
  return corners
    .map((corner) => (turnDeg === 0 ? corner : placeBefore(turned, corner)))
    .map(({ x, y }) => ({ x: x / size.widthPx, y: y / size.heightPx }))
}
