/** The curve of one set of pictures: shares of truths within each of `FACTORS` times the error told. */
interface Curve {
  readonly set: string
  readonly pictures: number
  readonly shares: readonly number[]
}

interface Panel {
  readonly title: string
  readonly curves: readonly Curve[]
}

/** Times the error told, at which shares are counted. @choice from a quarter to twice, in eighths. */
export const FACTORS: readonly number[] = Array.from({ length: 15 }, (_, i) => 0.25 + i / 8)

const PLOT = { width: 190, height: 130, left: 44, top: 30 } as const
const CELL = { width: 260, height: 200 } as const
const COLUMNS = 4
const LEGEND = 34
const COLORS = ['#1f6fb2', '#b3541e', '#3c7d3c'] as const
const MOST = FACTORS.at(-1) ?? 1

/** Two-sided normal errors of which 95 of 100 are within the error told. @source standard normal distribution: 1.96 standard deviations. */
export function idealShare(factor: number): number {
  return erf((1.96 * factor) / Math.SQRT2)
}

/** @source Abramowitz and Stegun 1964, 7.1.26, within 1.5e-7; from memory */
function erf(x: number): number {
  const t = 1 / (1 + 0.3275911 * x)
  const sum =
    t * (0.254829592 + t * (-0.284496736 + t * (1.421413741 + t * (-1.453152027 + t * 1.061405429))))
  return 1 - sum * Math.exp(-x * x)
}

/** The reliability diagram as SVG: for each measure the share of truths within k times the error told, against the ideal. */
export function diagram(panels: readonly Panel[]): string {
  const rows = Math.ceil(panels.length / COLUMNS)
  const [width, height] = [COLUMNS * CELL.width, rows * CELL.height + LEGEND]
  const sets = [...new Set(panels.flatMap(({ curves }) => curves.map(({ set }) => set)))]
  const colorOf = (set: string) => COLORS[sets.indexOf(set) % COLORS.length] ?? '#000'
  const cells = panels.map((panel, i) => {
    const [x, y] = [(i % COLUMNS) * CELL.width, Math.floor(i / COLUMNS) * CELL.height + LEGEND]
    return `<g transform="translate(${x} ${y})">${panelSvg(panel, colorOf)}</g>`
  })
  const keys = [
    ['as told: 95 of 100 within once the error', '#888', '4 3'] as const,
    ...sets.map((set) => [set, colorOf(set), 'none'] as const),
  ].map(
    ([text, color, dash], i) =>
      `<path d="M${PLOT.left + i * 290} 16h26" stroke="${color}" stroke-width="2" stroke-dasharray="${dash}"/><text x="${PLOT.left + 32 + i * 290}" y="20">${text}</text>`,
  )
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}" font-family="sans-serif" font-size="11" fill="#222">`,
    '<title>Share of true values within k times the error told</title>',
    `<rect width="${width}" height="${height}" fill="#fff"/>`,
    ...keys,
    ...cells,
    '</svg>\n',
  ].join('\n')
}

function panelSvg({ title, curves }: Panel, colorOf: (set: string) => string): string {
  const { left, top, width, height } = PLOT
  const x = (factor: number) => (left + (width * factor) / MOST).toFixed(1)
  const y = (share: number) => (top + height * (1 - share)).toFixed(1)
  const line = (points: readonly (readonly [number, number])[]) =>
    points.map(([factor, share], i) => `${i === 0 ? 'M' : 'L'}${x(factor)} ${y(share)}`).join('')
  const ideal = line([[0, 0], ...FACTORS.map((factor) => [factor, idealShare(factor)] as const)])
  return [
    `<text x="${left}" y="${top - 10}" font-weight="bold">${title}</text>`,
    ...[0, 0.5, 0.95].map(
      (share) =>
        `<path d="M${left} ${y(share)}h${width}" stroke="#ddd"/><text x="${left - 5}" y="${Number(y(share)) + 4}" text-anchor="end">${100 * share} %</text>`,
    ),
    ...[0.5, 1, 1.5, 2].map(
      (factor) => `<text x="${x(factor)}" y="${top + height + 15}" text-anchor="middle">${factor}</text>`,
    ),
    `<path d="M${x(1)} ${top}v${height}" stroke="#ddd"/>`,
    `<path d="M${left} ${top}v${height}h${width}" fill="none" stroke="#888"/>`,
    `<path d="${ideal}" fill="none" stroke="#888" stroke-width="2" stroke-dasharray="4 3"/>`,
    ...curves.map(
      ({ set, shares }) =>
        `<path d="${line(FACTORS.map((factor, i) => [factor, shares[i] ?? 0]))}" fill="none" stroke="${colorOf(set)}" stroke-width="2"/>`,
    ),
    ...curves.map(
      ({ set, pictures }, i) =>
        `<text x="${left + width - 4}" y="${top + height - 8 - 14 * i}" text-anchor="end" fill="${colorOf(set)}">${pictures} pictures</text>`,
    ),
  ].join('')
}
