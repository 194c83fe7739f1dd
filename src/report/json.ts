import type { Report } from '../judge/report.ts'
import { forJson } from './safe.ts'

/** The whole report for other programs; valid against the schema `Report`. */
export function json(report: Report): string {
  return `${forJson(JSON.stringify(report, null, 2))}\n`
}
