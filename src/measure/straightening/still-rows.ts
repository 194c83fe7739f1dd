import { errorsOutside, type RowDifferences, rowDifferences } from '../../kernels/strips/rows.ts'
import type { LumaStrip } from '../../kernels/strips/sides.ts'
import type { Turned } from './canvas.ts'
import type { FillLine } from './fill-line.ts'
import { linesOf } from './turn-search.ts'

/** Mean square that is added to each, squared codes. @tuned on 480 smeared and mirrored files and 1,500 others: 0.03 and 0.3 set them apart nearly as well */
const FLOOR = 0.1
/** Least spread of the logarithms, and how many spreads one cell tells at most. @choice flat pictures and one strong edge must not decide; no source */
const SPREAD = { least: 0.3, most: 3 } as const
/** How far inside of the line the middle of two rows lies whose difference begins to belong to the fill, px; one px farther out all of it does. @choice the blur of the line */
const BORDER = 0.25
/** Fewest sides that are asked. @choice of two, one alone would decide */
const LEAST_SIDES = 3

/**
 * Turns outside of whose lines rows are stillest are looked at closely, too: how many, how still these must be in standard errors, and every how many
 * turns are looked at, an odd number, since both signs take turns. Repeated rows of a backdrop with hardly any grain show to all its rows together only.
 * @tuned on the same files: 4, 4 and 1 find two more
 */
const STILLEST = { count: 3, errors: 5, every: 3 } as const

/**
 * How much each row of a strip differs from the next. Grain, and what JPEG leaves of it, makes rows differ; repeated rows don't.
 * @source two-way analysis of variance: what the means of rows and of columns do not explain (blocks of JPEG along the frame, hair across it)
 */
export function readRows(strip: LumaStrip): RowDifferences {
  return rowDifferences(strip, FLOOR, SPREAD)
}

/**
 * By how many standard errors rows differ less from the next outside of the lines of some turns, one for each side, than elsewhere; without the side that
 * shows it most, since one may have lines of its own. 0 where less than three sides tell.
 */
export function stillOutside(
  sides: readonly RowDifferences[],
  turns: readonly (readonly FillLine[])[],
): number[] {
  const told: Float64Array[] = []
  for (let i = 0; i < sides.length; i++) {
    const lines: FillLine[] = []
    for (const turn of turns) lines.push(turn[i] as FillLine)
    told.push(errorsOutside(sides[i] as RowDifferences, lines, BORDER))
  }
  return turns.map((_, k) => withoutMost(told, k))
}

/** What the sides tell together of one of some turns. */
function withoutMost(sides: readonly Float64Array[], turn: number): number {
  const errors: number[] = []
  for (const told of sides) if (!Number.isNaN(told[turn])) errors.push(told[turn] as number)
  if (errors.length < LEAST_SIDES) return 0
  let sum = -Math.max(...errors)
  for (const each of errors) sum += each
  return sum / Math.sqrt(errors.length - 1)
}

/** The turns outside of whose lines the rows of the sides are stillest. */
export function stillestTurns(
  sides: readonly RowDifferences[],
  strips: readonly LumaStrip[],
  turns: readonly Turned[],
): Turned[] {
  const asked = turns.filter((_, i) => i % STILLEST.every === 0)
  const errors = stillOutside(
    sides,
    asked.map((turned) => linesOf(strips, turned)),
  )
  const found: { turned: Turned; errors: number }[] = []
  for (const [k, turned] of asked.entries()) {
    const each = errors[k] as number
    if (each >= STILLEST.errors) found.push({ turned, errors: each })
  }
  found.sort((p, q) => q.errors - p.errors)
  return found.slice(0, STILLEST.count).map(({ turned }) => turned)
}
