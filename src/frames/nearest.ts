import type { Figure } from '../rules/contract/outcome.ts'
import type { CropRoom, Nearest, SceneOutcome } from './frame-report.ts'

/** What a frame is nearest to fail, or fails by the most. */
export function nearestOf(scene: readonly SceneOutcome[], rooms: readonly CropRoom[]): Nearest | null {
  const figures = scene.flatMap(({ rule, deliverables, figure, advisory, verdict }): Nearest[] =>
    figure && !advisory && verdict !== 'skip' ? [{ rule, deliverables, marginPct: marginPct(figure) }] : [],
  )
  const crops = rooms.flatMap(({ deliverable, pixelsPct }): Nearest[] =>
    pixelsPct === null
      ? []
      : [
          {
            rule: 'crop-room',
            deliverables: deliverable === null ? [] : [deliverable],
            marginPct: Math.min(100, pixelsPct - 100),
          },
        ],
  )
  return [...figures, ...crops].toSorted((a, b) => a.marginPct - b.marginPct)[0] ?? null
}

/**
 * How far a value is inside its limits, at most 100: of half the range between two limits, or of a single limit itself; negative beyond
 * them.
 */
function marginPct({ value, min, max }: Figure): number {
  const ends = [min === undefined ? [] : [value - min], max === undefined ? [] : [max - value]].flat()
  const unit = min !== undefined && max !== undefined ? (max - min) / 2 : Math.abs(min ?? max ?? 0)
  const inside = Math.min(...ends)
  if (ends.length === 0) return 100
  if (unit === 0) return inside === 0 ? 0 : -100
  return Math.min(100, (100 * inside) / unit)
}
