import { count } from '../text/quantity.ts'
import { type Algorithm, algorithmOf } from './algorithms.ts'
import type { Declaration } from './declaration.ts'
import { decodedPath, PAYLOAD, whyOutside, withoutDot } from './paths.ts'
import type { Findings } from './problem.ts'
import { tagLines } from './tag-text.ts'

/** A list of files with their checksums. */
export interface Manifest {
  /** Its own name: "manifest-sha512.txt". */
  readonly file: string
  readonly algorithm: Algorithm
  /** Checksums in lower-case hexadecimal by path. */
  readonly entries: ReadonlyMap<string, string>
}

/** What kind of files a manifest lists, and with which checksum; null for any other file. */
export function manifestName(file: string): { kind: 'payload' | 'tag'; algorithm: string } | null {
  const [, tag, algorithm] = /^(tag)?manifest-([a-z0-9-]+)\.txt$/i.exec(file) ?? []
  return algorithm === undefined ? null : { kind: tag === undefined ? 'payload' : 'tag', algorithm }
}

/**
 * Reads a manifest (RFC 8493, 2.1.3 and 2.2.1).
 * @returns null when its checksum is not known here
 */
export function readManifest(
  file: string,
  text: string,
  { isFinal }: Declaration,
  findings: Findings,
): Manifest | null {
  const name = manifestName(file)
  const algorithm = name && algorithmOf(name.algorithm)
  if (!name || !algorithm) return null
  const entries = new Map<string, string>()
  let dotted = 0
  let starred = 0
  for (const [index, line] of tagLines(text).entries()) {
    if (line.trim() === '') continue
    const [, checksum = '', star, written] = /^([0-9A-Fa-f]+)[ \t]+(\*)?(.*\S.*)$/.exec(line) ?? []
    if (written === undefined || checksum.length !== algorithm.digits) {
      findings.problem(
        'line',
        file,
        `Line ${index + 1} is not a checksum of ${algorithm.digits} hexadecimal digits, a space and a path.`,
      )
      continue
    }
    const path = withoutDot(decodedPath(written, isFinal))
    if (path !== written && written.startsWith('./')) dotted++
    if (star) starred++
    const outside = whyOutside(path) ?? misplaced(path, name.kind)
    if (outside !== null) {
      findings.problem(
        'path',
        file,
        `Line ${index + 1} names ${path}, which ${outside}. Nothing was read there.`,
      )
      continue
    }
    addEntry({ file, path, checksum: checksum.toLowerCase(), isFinal }, entries, findings)
  }
  if (dotted > 0)
    findings.warning('line', file, `${count(dotted, 'path')} begin with "./", which is left out.`)
  if (starred > 0)
    findings.warning(
      'line',
      file,
      `${count(starred, 'path')} begin with the asterisk of md5sum, which is left out.`,
    )
  return { file, algorithm, entries }
}

function misplaced(path: string, kind: 'payload' | 'tag'): string | null {
  if (kind === 'payload') return path.startsWith(PAYLOAD) ? null : `does not begin with ${PAYLOAD}`
  if (path.startsWith(PAYLOAD)) return `lies in ${PAYLOAD} and belongs into a manifest of the payload`
  return manifestName(path)?.kind === 'tag' ? 'is a tag manifest, which none may list' : null
}

interface Entry {
  readonly file: string
  readonly path: string
  readonly checksum: string
  readonly isFinal: boolean
}

/** Drafts allowed a path twice with the same checksum. */
function addEntry(
  { file, path, checksum, isFinal }: Entry,
  entries: Map<string, string>,
  findings: Findings,
) {
  const before = entries.get(path)
  if (before === undefined) entries.set(path, checksum)
  else if (before !== checksum)
    findings.problem('twice', path, `${file} lists this path with two different checksums.`)
  else if (isFinal) findings.problem('twice', path, `${file} lists this path twice.`)
  else findings.warning('twice', path, `${file} lists this path twice, with the same checksum.`)
}
