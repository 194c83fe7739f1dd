import type { FramingAsk } from '../framing/ask.ts'
import type { Rect } from '../framing/room.ts'
import type { Measurements } from '../measure/schema/measurements.ts'
import type { Rule } from '../rules/contract/rule.ts'
import type { Running } from './plan.ts'

/** What one rule asks of the framing. */
export interface Framing {
  readonly id: string
  readonly advisory: boolean
  readonly ask: FramingAsk
}

export function framingOf({ rule, application, advisory }: Running<Rule>): Framing[] {
  return rule.framing ? [{ id: rule.id, advisory, ask: rule.framing(application.options) }] : []
}

/** What stands at the edges and takes up that share of the frame or more, in px of the frame, outward to whole px. */
export function unwantedAtEdge({ widthPx, heightPx, background }: Measurements, smallestPct: number): Rect[] {
  const { intrusions, straightening } = background ?? {}
  const found = [
    ...(intrusions ?? []).filter(({ areaPct }) => areaPct >= smallestPct),
    // Together they are one thing.
    ...(straightening && straightening.areaPct >= smallestPct ? straightening.regions : []),
  ]
  if (!widthPx || !heightPx) return []
  return found.map(({ box: { x, y, width, height } }) => ({
    left: Math.floor(x * widthPx + HAIR_PX),
    top: Math.floor(y * heightPx + HAIR_PX),
    right: Math.ceil((x + width) * widthPx - HAIR_PX),
    bottom: Math.ceil((y + height) * heightPx - HAIR_PX),
  }))
}

/** Rounding of a product, which must not cost a pixel, px. @choice far above double precision, far below a pixel */
const HAIR_PX = 1e-6

/** All that rules ask of the framing. */
export function askTogether(framing: readonly Framing[]): FramingAsk {
  let all: FramingAsk = {}
  for (const { ask } of framing) all = { ...all, ...ask }
  return all
}
