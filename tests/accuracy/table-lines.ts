import type { MeasureTable, Tally } from './judged.ts'

const HEAD = ['group', 'n', 'false passes', 'false fails', 'unsure', 'mean error']
const WIDTHS = [22, 6, 14, 13, 8, 12]

/** A measure's table in plain text. @param flagged whether to name what a group is over 1.5 times the mean in */
export function tableLines({ measure, all, rows }: MeasureTable, flagged: boolean): string[] {
  return [
    `\n${measure}`,
    line(HEAD),
    line(['all', ...numbers(all)]),
    ...rows.map((row) => {
      const flag = flagged && row.over.length > 0 ? [`over 1.5 x the mean: ${row.over.join(', ')}`] : []
      return line([row.group, ...numbers(row), ...flag])
    }),
  ]
}

function numbers({ n, falsePasses, falseFails, unsure, meanError }: Tally): string[] {
  return [n, falsePasses, falseFails, unsure, meanError === null ? '' : meanError.toFixed(2)].map(String)
}

function line(cells: readonly string[]): string {
  return `  ${cells.map((cell, i) => cell.padEnd(WIDTHS[i] ?? 0)).join('')}`.trimEnd()
}
