import type { Patch } from '../../../imaging/patch.ts'
import { quantile } from '../../../numbers/quantile.ts'

/** Luma comes back by so much where an edge ends, codes. @choice above rounding and the noise of a JPEG of quality 80 and more. */
const TURN = 2

/** Least height of an edge, codes. @choice five times what ends one, so that noise on it doesn't count. */
const LEAST_HEIGHT = 10

/**
 * Height of the edges that are read, as a share of that which three in a hundred exceed.
 * @tuned on 26 of 51 studio portraits: lashes, lids and the rim of the iris, without the fine structure of skin and iris
 */
const STRONG = 0.35

/** Share of the edges that are lower than the height which {@link STRONG} is a share of. @choice the highest may be catchlights. */
const HIGH = 0.97

/** Fewest edges whose halo is told. @choice no source: their median is then good to a tenth of their spread. */
const FEWEST = 60

/**
 * How far beyond its end an edge is compared: in spreads of the edges, at least so many px, and at most so many at an inter-eye distance of 240 px,
 * beyond which lashes lie, not halos.
 * @tuned on 26 of 51 studio portraits and their unsharp masks of 0.5 to 3 px: nearer and farther away fewer of them stand out
 */
const BEYOND = { spreads: 3, leastPx: 2, mostPx: 4 } as const

/**
 * Height of the halos beside the strong edges of a patch, percent of the height of the edge: how far luma falls back beyond the
 * bright end of an edge and rises again beyond its dark end, the median of each, and of both the mean. Rows and columns are read from
 * one turn of luma to the next. Null when there are too few edges.
 * @param spreadPx spread of the patch's edges, px
 * @param scale pixels of the file per pixel at 240 px between the eyes
 * @source overshoot and undershoot beside edges, as ISO 12233 tells them of sharpened pictures; from memory
 */
export function haloOf(patch: Patch, spreadPx: number, scale: number): number | null {
  const beyond = Math.max(
    BEYOND.leastPx,
    Math.round(Math.min(BEYOND.spreads * spreadPx, BEYOND.mostPx * scale)),
  )
  const edges = [...edgesAlong(patch, 'rows', beyond), ...edgesAlong(patch, 'columns', beyond)]
  const least =
    STRONG *
    quantile(
      Float32Array.from(edges, ({ height }) => height),
      HIGH,
    )
  const strong = edges.filter(({ height }) => height >= least)
  if (strong.length < FEWEST) return null
  const typical = (end: 'bright' | 'dark') =>
    quantile(
      Float32Array.from(strong.flatMap((edge) => (edge[end] === null ? [] : [edge[end] / edge.height]))),
      0.5,
    )
  return 50 * (typical('bright') + typical('dark'))
}

/** A rise or fall of luma from one turn to the next, codes. */
interface Edge {
  readonly height: number
  /** How far luma falls back beyond the bright end, and rises beyond the dark one; null at the border of the patch. */
  readonly bright: number | null
  readonly dark: number | null
}

function edgesAlong({ luma, width, height }: Patch, lines: 'rows' | 'columns', beyond: number): Edge[] {
  const isRows = lines === 'rows'
  const [count, length] = isRows ? [height, width] : [width, height]
  const edges: Edge[] = []
  const line = new Float32Array(length)
  for (let n = 0; n < count; n++) {
    for (let i = 0; i < length; i++) line[i] = luma[isRows ? n * width + i : i * width + n] as number
    const turns = turnsOf(line)
    for (let k = 1; k + 1 < turns.length; k += 2) {
      const [from, to] = [turns[k] as number, turns[k + 1] as number]
      const [start, end] = [line[from] as number, line[to] as number]
      const sign = Math.sign(end - start)
      if (Math.abs(end - start) < LEAST_HEIGHT) continue
      const [before, after] = [line[from - beyond], line[to + beyond]]
      const atStart = before === undefined ? null : sign * (before - start)
      const atEnd = after === undefined ? null : sign * (end - after)
      edges.push({
        height: Math.abs(end - start),
        bright: sign > 0 ? atEnd : atStart,
        dark: sign > 0 ? atStart : atEnd,
      })
    }
  }
  return edges
}

/**
 * Where the values of a line turn from rising to falling or back, by {@link TURN} at least: the first and the last of the highest or
 * lowest values there, one turn behind the other. The line's two ends are none.
 */
function turnsOf(line: Float32Array): number[] {
  const turns: number[] = []
  let sign = 0
  // The highest and the lowest value since the last turn, and where it is reached last.
  let high = 0
  let highLast = 0
  let low = 0
  let lowLast = 0
  for (let i = 1; i < line.length; i++) {
    const value = line[i] as number
    const above = value - (line[high] as number)
    const below = (line[low] as number) - value
    if (sign >= 0 && above >= 0) {
      if (above > 0) high = i
      highLast = i
    }
    if (sign <= 0 && below >= 0) {
      if (below > 0) low = i
      lowLast = i
    }
    if (sign >= 0 && (line[high] as number) - value > TURN) {
      if (sign > 0) turns.push(high, highLast)
      sign = -1
      low = i
      lowLast = i
    } else if (sign <= 0 && value - (line[low] as number) > TURN) {
      if (sign < 0) turns.push(low, lowLast)
      sign = 1
      high = i
      highLast = i
    }
  }
  return turns
}
