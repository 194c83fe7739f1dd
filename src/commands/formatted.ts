import type { Report } from '../judge/report.ts'
import { csv } from '../report/csv.ts'
import { type HtmlOptions, htmlReport } from '../report/html/html.ts'
import { json } from '../report/json.ts'
import { junit } from '../report/junit.ts'
import { markdown } from '../report/markdown.ts'
import { renames } from '../report/renames.ts'
import { table } from '../report/table.ts'
import type { Format } from './formats.ts'
import type { Layout, Rendered } from './outputs.ts'

export interface FormatOptions extends HtmlOptions {
  /** Whether formats to be read tell every finding in full, however many there are. */
  readonly all: boolean
}

/** The report in one of the formats. */
export function formatted(report: Report, format: Format, layout: Layout, options: FormatOptions): Rendered {
  switch (format) {
    case 'json':
      return json(report)
    case 'markdown':
      return markdown(report, options)
    case 'table':
      return table(report, { ...layout, all: options.all })
    case 'junit':
      return junit(report, options)
    case 'csv':
      return csv(report)
    case 'renames':
      return renames(report)
    case 'html': {
      const { index, pages } = htmlReport(report, options)
      return { text: index, beside: pages }
    }
  }
}
