import { mirrorSums } from '../../kernels/strips.ts'
import { binsOf, PLACES } from './between-pixels.ts'
import type { Turned } from './canvas.ts'
import { type Evidence, NO_EVIDENCE, withPlace } from './evidence.ts'
import type { FillLine } from './fill-line.ts'
import type { SideStrip } from './side-strip.ts'
import { type Care, type Found, findTurn, type Search } from './turn-search.ts'

/** How far beside the line nothing must mirror, px. @choice beyond the blur of an edge; no source */
const AWAY = 3
/**
 * Least share of what could tell that must speak for mirrored pixels, in a copy of the usual size and of thin wedges; in a smaller copy, where fewer places
 * tell, more by as much as it is smaller.
 * @tuned on 60 mirrored files and 400 untouched pictures and tight crops: these have 0.034 at most; on 120 drawn portraits of 288 x 360 px, which
 *   have 0.111 at most where 0.142 is asked. Thin ones on 120 mirrored files and 2,275 untouched pictures and crops, which have 0.04 at most
 */
const LEAST_SHARE = { inCopy: 0.05, thin: 0.1 } as const
/** Long edge of the copies that the share was tuned on, px. @choice that of the copy in which faces are found */
const TUNED_PX = 1024

/** The turn whose wedges mirror the picture; null when there is none. */
export function findMirrored(
  strips: readonly SideStrip[],
  linesOf: (turned: Turned) => readonly FillLine[],
  search: Search,
): Found | null {
  const longest = Math.max(...strips.map(({ length }) => length))
  const inCopy = LEAST_SHARE.inCopy * Math.max(1, TUNED_PX / longest)
  return findTurn(
    strips,
    linesOf,
    mirroredAlong,
    { share: search.isThin ? LEAST_SHARE.thin : inCopy },
    search,
  )
}

/** Colors outside of a line are those at the same distance inside of it, and of neither line beside it. */
function mirroredAlong(strip: SideStrip, lines: readonly FillLine[], care: Care): Evidence[] {
  const looked = lines.map((line) => ({ ...line, ...binsOf(line, strip.length, care.size) }))
  return mirrorSums(strip, looked, { ...care, ...PLACES, away: AWAY }).map((sums) => {
    let evidence = NO_EVIDENCE
    for (let k = 0; k < sums.length; k += 3) {
      const [mirrored, beside, places] = [sums[k] as number, sums[k + 1] as number, sums[k + 2] as number]
      if (places > 0) evidence = withPlace(evidence, mirrored / places, beside / places)
    }
    return evidence
  })
}
