import { basename } from 'node:path'
import type { FoundFile } from '../delivery/walk.ts'
import type { SourceText } from '../files/source-text.ts'
import type { Sources } from '../judge/part.ts'
import type { Report } from '../judge/report.ts'
import type { Standard } from '../judge/standard.ts'
import { htmlReport } from '../report/html/html.ts'
import { shownSpec } from '../report/html/shown-spec.ts'
import { json } from '../report/json.ts'
import { peopleList } from './people-list.ts'

/** The folder of a bag that says what was checked, and by what; from the bag's own folder on. */
const FOLDER = 'portrait-gate'
const REPORT = 'report.html'

/** What is packed beside the portraits. */
export interface Checked {
  readonly report: Report
  readonly portraits: readonly FoundFile[]
  readonly sources: Sources
  readonly standard: Standard
  readonly at: Date
}

/** The tag files of a sealed delivery, by their paths. Folders of the machine that it was sealed on are not told. */
export async function sealedTags(
  { report, portraits, sources, standard, at }: Checked,
  signal: AbortSignal,
): Promise<ReadonlyMap<string, string>> {
  // The picture library, which not every command needs.
  const { makePictures } = await import('../report/html/pictures.ts')
  const told = { ...report, spec: shownSpec(report.spec) }
  const pictures = await makePictures(told, portraits, signal)
  const { index, pages } = htmlReport(told, { pictures, at, name: REPORT })
  const people = peopleList(standard.spec, standard.roster, at.toISOString().slice(0, 10))
  const specs = [sources.spec, ...sources.extended]
  return new Map([
    [`${FOLDER}/report.json`, json(told)],
    [`${FOLDER}/${REPORT}`, index],
    ...[...pages].map(([name, text]): [string, string] => [`${FOLDER}/${name}`, text]),
    ...specs.map(({ file, text }, i): [string, string] => [
      `${FOLDER}/spec/${i + 1}-${basename(file)}`,
      text,
    ]),
    ...(sources.waivers ? [[WAIVERS, sources.waivers.text] as const] : []),
    ...(people === null ? [] : [[`${FOLDER}/people.csv`, people] as const]),
  ])
}

const WAIVERS = `${FOLDER}/waivers.yaml`

/** What a studio judged by, as it came along in a bag. */
export interface CameAlong {
  /** The spec, the one that it extends, and so on; none when the bag has none. */
  readonly specs: readonly SourceText[]
  readonly waivers: SourceText | null
}

/**
 * Finds among the tag files of a bag what the studio judged by.
 * @param read gives the text of a tag file by its path; null when there is none, or it can't be read
 */
export async function cameAlong(
  files: readonly string[],
  read: (file: string) => Promise<string | null>,
): Promise<CameAlong> {
  const text = async (file: string): Promise<SourceText[]> => {
    const found = await read(file)
    return found === null ? [] : [{ file, text: found }]
  }
  const numbered = files.flatMap((file) => {
    const number = new RegExp(`^${FOLDER}/spec/([1-9])-[^/]+$`).exec(file)?.[1]
    return number === undefined ? [] : [{ file, number: Number(number) }]
  })
  numbered.sort((a, b) => a.number - b.number)
  const specs = await Promise.all(numbered.map(({ file }) => text(file)))
  const [waivers = null] = files.includes(WAIVERS) ? await text(WAIVERS) : []
  return { specs: specs.flat(), waivers }
}
