import { type FileReport, findingsByFile, type Report } from '../../judge/report.ts'
import { worstFirst } from '../../judge/severity.ts'
import type { Outcome } from '../../rules/contract/outcome.ts'
import type { Pictures, PortraitPictures } from './pictures.ts'
import { type Standing, standingOf } from './standing.ts'

/** A portrait with all that its card, its place in the set and its points in the plots are made from. */
export interface Portrait {
  /** Of its card, unique in the whole report. */
  readonly id: string
  /** Where its card is, as a link from any page of the report. */
  readonly href: string
  /** In the order of the paths. */
  readonly place: number
  readonly file: FileReport
  /** All that is said of it, by rules on files and by rules over the delivery. */
  readonly findings: readonly Outcome[]
  readonly standing: Standing
  readonly pictures: PortraitPictures | null
}

/**
 * The portraits in the order of their cards: the worst first, then by path.
 * @param pageOf name of the page on which the portrait with this place stands; '' for the same page
 */
export function portraitsOf(
  report: Report,
  pictures: Pictures,
  pageOf: (index: number) => string,
): Portrait[] {
  const all = findingsByFile(report)
  const places = new Map(report.files.map(({ file }, place) => [file, place]))
  return worstFirst(report.files, all).map((file, index) => {
    const findings = all.get(file.file) ?? []
    const id = `portrait-${index + 1}`
    return {
      ...{ id, href: `${pageOf(index)}#${id}`, place: places.get(file.file) ?? 0 },
      ...{ file, findings, standing: standingOf(file.verdict, findings) },
      pictures: pictures.get(file.file) ?? null,
    }
  })
}
