import type { Measurements } from '../measure/schema/measurements.ts'
import { type Cell, csvText } from './csv-text.ts'

/** The measurements alone, a row a file: columns are named by their path in the JSON. */
export function measurementsCsv(measurements: readonly Measurements[]): string {
  return csvText(measurements.map((measured) => new Map(flat(measured))))
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
