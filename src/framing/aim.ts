import type { FramingAsk } from './ask.ts'
import { clamp, isEmpty, startsOf } from './axis.ts'
import { type CropAxes, type Fit, startsAt, whole, widthsAt } from './fit.ts'
import type { Sitter } from './sitter.ts'

const AIMED = ['headroom', 'eye-line', 'head-height', 'centering'] as const
type AimedRule = (typeof AIMED)[number]

/** Where the sitter is to be in the frame, in percent as the rules measure it; absent where it makes no difference. */
export type Aim = Readonly<Partial<Record<AimedRule, number>>>

/**
 * The middle of every band that is asked, so that a set looks as if made in one sitting.
 * @param medians of a set to be like; each counts where the band has it
 */
export function aimOf(ask: FramingAsk, medians: Aim = {}): Aim {
  const aims = AIMED.flatMap((rule) => {
    const band = ask[rule]
    const median = medians[rule]
    if (median !== undefined) return [[rule, band ? clamp(median, band) : median] as const]
    // A band with one end has no middle.
    if (!band || !Number.isFinite(band.max - band.min)) return []
    return [[rule, (band.min + band.max) / 2] as const]
  })
  return Object.fromEntries(aims)
}

/** A crop with how far it misses its aim: the places first, since eyes at one height make a set; then the sizes. */
export interface Aimed extends Fit {
  /** Px off the eye line, then off the center; percent off the height of the head, then off the headroom; then the smallness of the crop. */
  readonly misses: readonly number[]
}

/** Differences below this are none. @choice double precision, no source. */
const HAIR = 1e-9

export function isNearer(a: Aimed, b: Aimed): boolean {
  for (const [index, miss] of a.misses.entries()) {
    const difference = miss - (b.misses[index] ?? 0)
    if (Math.abs(difference) > HAIR) return difference < 0
  }
  return false
}

/**
 * The crop in whole px that comes nearest to an aim. Each height is tried, with the width that has its shape most exactly; place and size along one
 * side are bounded by straight lines, so that the nearest place of a size is found at once.
 */
export function aimedFit(axes: CropAxes, sitter: Sitter, aim: Aim): Aimed | null {
  const { across, down, shape, tolerance } = axes
  const { frame } = sitter
  const widths = whole(across.size, shape.width.min)
  const heights = whole(down.size, shape.height.min)
  let best: Aimed | null = null
  for (let height = heights.min; height <= heights.max; height++) {
    const tops = startsOf(down, height)
    const allowed = widthsAt(height, shape, tolerance)
    const most = { min: Math.max(allowed.min, widths.min), max: Math.min(allowed.max, widths.max) }
    if (isEmpty(tops) || isEmpty(most)) continue
    const exact = clamp(frame.widthPx / frame.heightPx, shape.ratio) * height
    const width = clamp(Math.round(exact), most)
    const wanted = wantedTop(height, sitter, aim)
    const row = nearest(wanted, tops).at
    // In a turned picture a crop has not the same room in every row.
    const starts =
      startsAt(axes, width, height, { min: row, max: row }) ?? startsAt(axes, width, height, tops)
    if (!starts) continue
    const top = nearest(wanted, starts.top)
    const left = nearest(wantedLeft(width, sitter, aim), starts.left)
    const off = (rule: AimedRule, value: number) => Math.abs(value - (aim[rule] ?? value))
    const one: Aimed = {
      ...{ width, height, left: { min: left.at, max: left.at }, top: { min: top.at, max: top.at } },
      misses: [
        top.missed,
        left.missed,
        off('head-height', (100 * sitter.headHeight) / height),
        off('headroom', (100 * (sitter.crownY - top.at)) / height),
        -height,
      ],
    }
    if (!best || isNearer(one, best)) best = one
  }
  return best
}

/** Where a crop of this height is to begin: by the eyes; else by the crown; else so that the eyes keep their share of the frame. */
function wantedTop(height: number, { eyes, crownY, frame }: Sitter, aim: Aim): number {
  const { 'eye-line': eyeLine, headroom } = aim
  if (eyeLine !== undefined) return eyes.y - (eyeLine / 100) * height
  if (headroom !== undefined) return crownY - (headroom / 100) * height
  return eyes.y * (1 - height / frame.heightPx)
}

function wantedLeft(width: number, { eyes, frame }: Sitter, { centering }: Aim): number {
  if (centering !== undefined) return eyes.x - (0.5 + centering / 100) * width
  return eyes.x * (1 - width / frame.widthPx)
}

/** The whole px nearest to a place; rounding to it misses nothing. */
function nearest(wanted: number, starts: { min: number; max: number }): { at: number; missed: number } {
  const at = clamp(Math.round(wanted), starts)
  const missed = Math.abs(wanted - at)
  return { at, missed: missed <= 0.5 + HAIR ? 0 : missed }
}
