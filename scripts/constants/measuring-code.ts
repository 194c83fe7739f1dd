import { readdirSync, readFileSync } from 'node:fs'
import { type Constants, readConstants } from './read.ts'

/** What measures and what judges: the folders whose numbers are accounted for. */
const FOLDERS = ['color', 'derive', 'framing', 'imaging', 'judge', 'likeness', 'measure', 'numbers', 'rules']

/** The constants of the measuring code, in the order of their files, and what is wrong with how it states numbers; run in the root. */
export function measuringConstants(): Constants {
  const read = FOLDERS.flatMap((folder) => filesOf(`src/${folder}`)).map((path) =>
    readConstants(path, readFileSync(path, 'utf8')),
  )
  return {
    constants: read.flatMap(({ constants }) => constants),
    problems: read.flatMap(({ problems }) => problems),
  }
}

function filesOf(folder: string): string[] {
  return readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.ts'))
    .sort()
    .map((name) => `${folder}/${name.replaceAll('\\', '/')}`)
}
