import { type FileReport, isMiss, isWarning, type Report } from '../judge/report.ts'
import type { Measurements } from '../measure/schema/measurements.ts'
import { forCsv } from './safe.ts'

type Cell = string | number | boolean | null
type Row = ReadonlyMap<string, Cell>

// Without it spreadsheets read UTF-8 as an older code page.
const BYTE_ORDER_MARK = '\ufeff'

/** A row a portrait for a spreadsheet: what it is, its verdict, the rules it misses, then all measurements. */
export function csv(report: Report): string {
  return csvOf(report.files.map((file) => new Map([...judged(file), ...flat(file.measurements)])))
}

/** The measurements alone, a row a file. */
export function measurementsCsv(measurements: readonly Measurements[]): string {
  return csvOf(measurements.map((measured) => new Map(flat(measured))))
}

/** RFC 4180 with a header: columns are named by their path in the JSON. */
function csvOf(rows: readonly Row[]): string {
  const names = [...new Set(rows.flatMap((row) => [...row.keys()]))]
  const lines = [
    names.map(forCsv),
    ...rows.map((row) => names.map((name) => cellText(row.get(name) ?? null))),
  ]
  return BYTE_ORDER_MARK + lines.map((cells) => `${cells.join(',')}\r\n`).join('')
}

function cellText(cell: Cell): string {
  return typeof cell === 'string' ? forCsv(cell) : cell === null ? '' : String(cell)
}

function judged({ file, deliverable, person, fields, verdict, outcomes }: FileReport): [string, Cell][] {
  const named = (chosen: typeof outcomes) => chosen.map(({ rule }) => rule).join(' ')
  const binding = outcomes.filter((outcome) => !outcome.advisory && isMiss(outcome))
  return [
    ['file', file],
    ['person', person],
    ['deliverable', deliverable],
    ...Object.entries(fields).map(([field, value]): [string, Cell] => [`name.${field}`, value]),
    ['verdict', verdict],
    ['fails', named(binding.filter((outcome) => outcome.verdict === 'fail'))],
    ['unsure', named(binding.filter((outcome) => outcome.verdict === 'unsure'))],
    ['warnings', named(outcomes.filter(isWarning))],
    ['exceptions', named(outcomes.filter(({ waiver }) => waiver !== undefined))],
  ]
}

/**
 * The leaves of an object by their paths; a list of words in one cell, of a list of objects their number. A picture's
 * signature stays out: it is made from a face and says nothing to a reader.
 */
function flat(value: object, path = ''): [string, Cell][] {
  return Object.entries(value).flatMap(([key, part]: [string, unknown]): [string, Cell][] => {
    if (key === 'signature') return []
    const name = path + key
    if (Array.isArray(part)) return [[name, listText(part)]]
    if (typeof part === 'object' && part !== null) return flat(part, `${name}.`)
    return [[name, isCell(part) ? part : null]]
  })
}

function listText(list: readonly unknown[]): Cell {
  return list.every((word) => typeof word === 'string') ? list.join(' ') : list.length
}

function isCell(value: unknown): value is Cell {
  return value === null || ['string', 'number', 'boolean'].includes(typeof value)
}
