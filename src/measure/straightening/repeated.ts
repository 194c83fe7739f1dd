import { repeatSums } from '../../kernels/strips.ts'
import { binsOf, PLACES } from './between-pixels.ts'
import type { Turned } from './canvas.ts'
import { type Evidence, NO_EVIDENCE, withPlace } from './evidence.ts'
import type { FillLine } from './fill-line.ts'
import type { SideStrip } from './side-strip.ts'
import { type Care, type Found, findTurn, type Search } from './turn-search.ts'

/** How far beside the line its blur ends, px. @choice half a pixel and a quarter */
const CLEAR = 0.75
/** First distance from the line that is compared with it, px. @choice beyond its blur */
const FIRST = 1.5
/**
 * Least share of what could tell that must speak for repeated pixels, in a copy and of thin wedges.
 * @tuned on 60 smeared files and 400 untouched pictures and tight crops: these have 0.33 at most in a copy; 837 crops more, chosen on by nobody, have 0.36.
 *   Thin ones on 120 smeared files, 1,237 untouched pictures and crops of them, which have 0.39 at most, and 1,038 others of places and things, 0.40 where the other sides do not speak against it
 */
const LEAST_SHARE = { inCopy: 0.385, thin: 0.43 } as const

/** The turn whose wedges repeat the outermost pixels; null when there is none. */
export function findRepeated(
  strips: readonly SideStrip[],
  linesOf: (turned: Turned) => readonly FillLine[],
  search: Search,
): Found | null {
  const share = search.isThin ? LEAST_SHARE.thin : LEAST_SHARE.inCopy
  return findTurn(strips, linesOf, repeatedAlong, { share, isShared: search.isThin }, search)
}

/** Colors stay as they are from a line outward, and change inward of it as well as along it outside. */
function repeatedAlong(strip: SideStrip, lines: readonly FillLine[], care: Care): Evidence[] {
  const looked = lines.map((line) => ({ ...line, ...binsOf(line, strip.length, care.size) }))
  return repeatSums(strip, looked, { ...care, ...PLACES, clear: CLEAR, nearest: FIRST }).map((sums) => {
    let evidence = NO_EVIDENCE
    for (let k = 0; k < sums.length; k += 4) {
      const outward = sums[k] as number
      const otherwise = Math.min(sums[k + 1] as number, sums[k + 2] as number)
      const places = sums[k + 3] as number
      if (places > 0) evidence = withPlace(evidence, outward / places, otherwise / places)
    }
    return evidence
  })
}
