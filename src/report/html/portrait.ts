import type { FileReport, Report } from '../../judge/report.ts'
import type { Pictures, PortraitPictures } from './pictures.ts'
import { STANDINGS, type Standing, standingOf } from './standing.ts'

/** A portrait with all that its card, its place in the set and its points in the plots are made from. */
export interface Portrait {
  /** Of its card, unique in the whole report. */
  readonly id: string
  /** Where its card is, as a link from any page of the report. */
  readonly href: string
  readonly file: FileReport
  readonly standing: Standing
  readonly pictures: PortraitPictures | null
}

/**
 * The portraits in the order of their cards: the worst first, then by path.
 * @param pageOf name of the page on which the portrait with this place stands; '' for the same page
 */
export function portraitsOf(
  { files }: Report,
  pictures: Pictures,
  pageOf: (index: number) => string,
): Portrait[] {
  return files
    .map((file) => ({ file, standing: standingOf(file), pictures: pictures.get(file.file) ?? null }))
    .sort((a, b) => STANDINGS.indexOf(a.standing) - STANDINGS.indexOf(b.standing))
    .map((portrait, index) => {
      const id = `portrait-${index + 1}`
      return { ...portrait, id, href: `${pageOf(index)}#${id}` }
    })
}
