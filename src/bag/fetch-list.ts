import type { Declaration } from './declaration.ts'
import { decodedPath, PAYLOAD, whyOutside, withoutDot } from './paths.ts'
import type { Findings } from './problem.ts'
import { tagLines } from './tag-text.ts'

export const FETCH = 'fetch.txt'

/** Reads the list of files that are still to be downloaded (RFC 8493, 2.2.3): their paths. Nothing is ever downloaded. */
export function readFetchList(
  text: string,
  { isFinal }: Declaration,
  findings: Findings,
): ReadonlySet<string> {
  const paths = new Set<string>()
  for (const [index, line] of tagLines(text).entries()) {
    if (line.trim() === '') continue
    const [, written] = /^\S+[ \t]+(?:[0-9]+|-)[ \t]+(.*\S.*)$/.exec(line) ?? []
    if (written === undefined) {
      findings.problem('line', FETCH, `Line ${index + 1} is not an address, a length or "-", and a path.`)
      continue
    }
    const path = withoutDot(decodedPath(written, isFinal))
    const outside = whyOutside(path) ?? (path.startsWith(PAYLOAD) ? null : `does not begin with ${PAYLOAD}`)
    if (outside === null) paths.add(path)
    else
      findings.problem(
        'path',
        FETCH,
        `Line ${index + 1} names ${path}, which ${outside}. Nothing was downloaded.`,
      )
  }
  return paths
}
