import stringWidth from 'string-width'
import type { Measurements } from '../measure/schema/measurements.ts'
import { quantity } from '../text/quantity.ts'
import { forTerminal } from './safe.ts'

interface Column {
  readonly title: string
  readonly value: (measured: Measurements) => string
}

const UNKNOWN = '–'
const shown = (value: number | null | undefined, unit = '') =>
  value === null || value === undefined ? UNKNOWN : quantity(value, unit)

/** In the order in which they are given up when the terminal is narrow: the last first. */
const COLUMNS: readonly Column[] = [
  { title: 'file', value: ({ file }) => forTerminal(file) },
  {
    title: 'size px',
    value: ({ widthPx, heightPx }) => (widthPx && heightPx ? `${widthPx} x ${heightPx}` : UNKNOWN),
  },
  { title: 'headroom', value: ({ head }) => shown(head?.headroomPct, ' %') },
  { title: 'eye line', value: ({ head }) => shown(head?.eyeLinePct, ' %') },
  { title: 'backdrop', value: ({ background }) => shown(background?.lightnessL, ' L*') },
  { title: 'sure', value: ({ head }) => shown(head?.confidence) },
  { title: 'head', value: ({ head }) => shown(head?.headHeightPct, ' %') },
  { title: 'off center', value: ({ head }) => shown(head?.offCenterPct, ' %') },
  { title: 'tilt', value: ({ face }) => shown(face?.tiltDeg, '°') },
  { title: 'evenness', value: ({ background }) => shown(background?.unevennessL, ' L*') },
  { title: 'profile', value: ({ color }) => color?.profile ?? UNKNOWN },
  { title: 'quality', value: ({ jpeg }) => shown(jpeg?.quality) },
  { title: 'ppi', value: ({ ppi }) => shown(ppi) },
]
const GAP = 2

/** The measurements that a person asks for first, a line a file; as many columns as the terminal is wide. */
export function measurementsTable(measurements: readonly Measurements[], columns: number): string {
  const grid = COLUMNS.map(({ title, value }) => [title, ...measurements.map(value)])
  const widths = grid.map((cells) => Math.max(...cells.map((cell) => stringWidth(cell))))
  let used = 0
  const fitting = widths.findIndex((width, i) => {
    used += width + (i === 0 ? 0 : GAP)
    return used > columns
  })
  const kept = fitting === -1 ? grid.length : Math.max(2, fitting)
  const line = (row: number) =>
    grid
      .slice(0, kept)
      .map((cells, i) => aligned(cells[row] ?? '', widths[i] ?? 0, i > 0))
      .join(' '.repeat(GAP))
      .trimEnd()
  return `${Array.from({ length: measurements.length + 1 }, (_, row) => line(row)).join('\n')}\n`
}

function aligned(cell: string, width: number, right: boolean): string {
  const space = ' '.repeat(Math.max(0, width - stringWidth(cell)))
  return right ? space + cell : cell + space
}
