import { binsOf, grayAt, PLACES, stepWithin } from './between-pixels.ts'
import type { Turned } from './canvas.ts'
import { type Evidence, NO_EVIDENCE, withPlace } from './evidence.ts'
import { depthAt, type FillLine } from './fill-line.ts'
import type { SideStrip } from './side-strip.ts'
import { type Care, findTurn } from './turn-search.ts'

/** How far beside the line its blur ends, px. @choice half a pixel and a quarter */
const CLEAR = 0.75
/** First distance from the line that is compared with it, px. @choice beyond its blur */
const FIRST = 1.5
/**
 * Least share of what could tell that must speak for repeated pixels.
 * @tuned on 60 smeared files and 400 untouched pictures and tight crops: these have 0.33 at most
 */
const LEAST_SHARE = 0.385

/** The turn whose wedges repeat the outermost pixels; null when there is none. */
export function findRepeated(
  strips: readonly SideStrip[],
  linesOf: (turned: Turned) => readonly FillLine[],
): Turned | null {
  return findTurn(strips, linesOf, repeatedAlong, LEAST_SHARE)
}

/** Colors stay as they are from a line outward, and change inward of it as well as along it outside. */
function repeatedAlong(strip: SideStrip, lines: readonly FillLine[], care: Care): Evidence[] {
  return lines.map((line) => alongOne(strip, line, care))
}

function alongOne(strip: SideStrip, line: FillLine, { stride, reach }: Care): Evidence {
  const { slope } = line
  const { first, bins } = binsOf(line, strip.length)
  let evidence = NO_EVIDENCE
  for (let bin = 0; bin < bins; bin++) {
    const start = first + bin * PLACES.size
    const within = Math.min(reach, Math.floor(depthAt(line, start + PLACES.size / 2)))
    if (within < 2) continue
    const step = stepWithin(within)
    let [outward, inward, along, n] = [0, 0, 0, 0]
    for (let t = start; t < start + PLACES.size; t += stride) {
      const depth = depthAt(line, t + 0.5)
      const outer = grayAt(strip, t - CLEAR * slope, depth - CLEAR)
      const inner = grayAt(strip, t + CLEAR * slope, depth + CLEAR)
      for (let a = FIRST; a < within; a += step) {
        const place = t + a * slope
        outward += (grayAt(strip, place, depth - a) - outer) ** 2
        inward += (grayAt(strip, t - a * slope, depth + a) - inner) ** 2
        const before = grayAt(strip, place - a, depth - a) - outer
        const after = grayAt(strip, place + a, depth - a) - outer
        along += Math.min(before * before, after * after)
        n++
      }
    }
    if (n > 0) evidence = withPlace(evidence, outward / n, Math.min(inward, along) / n)
  }
  return evidence
}
