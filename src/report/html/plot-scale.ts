import type { Figure } from '../../rules/contract/outcome.ts'

export interface Axis {
  /** Place of a value; of what lies beyond the axis, its end. */
  readonly at: (value: number) => number
  /** Round numbers along it. */
  readonly ticks: readonly number[]
}

const TICKS = 5
const ROOM = 0.06

/** An axis from `start` to `end` that holds every value and every limit, with a little room at both ends. */
export function axisOver(figures: readonly Figure[], start: number, end: number): Axis {
  const all = figures.flatMap(({ value, min, max }) => [value, min ?? value, max ?? value])
  const [low, high] = [Math.min(...all), Math.max(...all)]
  const room = (high - low || Math.abs(low) || 1) * ROOM
  const [from, to] = [low - room, high + room]
  const at = (value: number) => {
    const share = Math.min(1, Math.max(0, (value - from) / (to - from)))
    return Math.round((start + share * (end - start)) * 10) / 10
  }
  return { at, ticks: ticksIn(from, to) }
}

/** Multiples of 1, 2 or 5 times a power of ten: as many as fit, `TICKS` at most. */
function ticksIn(from: number, to: number): number[] {
  const rough = (to - from) / TICKS
  const power = 10 ** Math.floor(Math.log10(rough))
  const step = power * ([1, 2, 5].find((factor) => factor * power >= rough) ?? 10)
  const first = Math.ceil(from / step)
  const last = Math.floor(to / step)
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, i) => (first + i) * step)
}

/**
 * Points on a line, moved up where they would cover each other, in columns as wide as a point; columns too high for
 * the room are pressed together.
 * @param xs places along the line
 */
export function stacked(xs: readonly number[], radius: number, room: number): { x: number; up: number }[] {
  const columns = new Map<number, number>()
  const placed = xs.map((x) => {
    const column = Math.round(x / (2 * radius))
    const level = columns.get(column) ?? 0
    columns.set(column, level + 1)
    return { x, level }
  })
  const highest = Math.max(0, ...columns.values()) - 1
  const step = highest > 0 ? Math.min(2 * radius + 1, room / highest) : 0
  return placed.map(({ x, level }) => ({ x, up: level * step }))
}
