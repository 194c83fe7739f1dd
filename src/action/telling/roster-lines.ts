import { resolve } from 'node:path'
import { readSourceText } from '../../files/source-text.ts'
import type { Sources } from '../../judge/part.ts'
import type { Standard } from '../../judge/standard.ts'
import { findPeople } from '../../people/people.ts'
import { fromWorkspace } from '../job/from-workspace.ts'
import type { Places } from './annotations.ts'

/** Where the people of the roster stand, as long as the checkout has the roster that was judged by. */
export async function rosterLines(
  workspace: string,
  { standard: { spec, roster }, sources }: { standard: Standard; sources: Pick<Sources, 'roster'> },
): Promise<Places['ofPerson']> {
  const path = sources.roster && resolve(workspace, sources.roster.file)
  const file = path && fromWorkspace(workspace, path)
  const checkedOut = file && (await readSourceText(resolve(workspace, file)))
  if (!file || !checkedOut || !('text' in checkedOut) || checkedOut.text !== sources.roster?.text)
    return () => null
  const { people } = findPeople([], spec.naming, roster)
  const lines = new Map(people.flatMap(({ label, entry }) => (entry ? [[label, entry.line] as const] : [])))
  return (label) => {
    const line = lines.get(label)
    return line === undefined ? null : { file, line }
  }
}
