import { forCsv } from './safe.ts'

export type Cell = string | number | boolean | null
export type Row = ReadonlyMap<string, Cell>

// Without it spreadsheets read UTF-8 as an older code page.
const BYTE_ORDER_MARK = '\ufeff'

/**
 * Rows as CSV with a header (RFC 4180), each under the names of its cells.
 * @param names columns that stand first and are there without rows too; others follow as they come
 */
export function csvText(rows: readonly Row[], names: readonly string[] = []): string {
  const columns = [...new Set([...names, ...rows.flatMap((row) => [...row.keys()])])]
  const lines = [
    columns.map(forCsv),
    ...rows.map((row) => columns.map((name) => cellText(row.get(name) ?? null))),
  ]
  return BYTE_ORDER_MARK + lines.map((cells) => `${cells.join(',')}\r\n`).join('')
}

function cellText(cell: Cell): string {
  return typeof cell === 'string' ? forCsv(cell) : cell === null ? '' : String(cell)
}
