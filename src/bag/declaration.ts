import type { Findings } from './problem.ts'

export const DECLARATION = 'bagit.txt'

/** What `bagit.txt` says. */
export interface Declaration {
  /** "1.0" */
  readonly version: string
  /** Whether RFC 8493 (1.0) counts; the drafts before it (0.93 to 0.97) leave more open. */
  readonly isFinal: boolean
  /** The name of the encoding of all other tag files, as written. */
  readonly encoding: string
}

/** @source RFC 8493, Appendix A lists the drafts; 0.97 is draft-kunze-bagit-14 */
const VERSIONS = ['0.93', '0.94', '0.95', '0.96', '0.97', '1.0']

const FORM = 'It should be two lines in UTF-8: "BagIt-Version: 1.0" and "Tag-File-Character-Encoding: UTF-8".'

/** Reads `bagit.txt` (RFC 8493, 2.1.1); what is wrong goes to the findings. Null when nobody can tell how to read the bag. */
export function readDeclaration(bytes: Buffer, findings: Findings): Declaration | null {
  const wrong = (what: string): null => {
    findings.problem('structure', DECLARATION, `${what} ${FORM}`)
    return null
  }
  if (bytes.subarray(0, 3).equals(Buffer.from([0xef, 0xbb, 0xbf])))
    return wrong('It begins with a byte order mark.')
  const lines = bytes.toString('utf8').split(/\r\n|\r|\n/)
  while (lines.length > 2 && lines.at(-1) === '') lines.pop()
  const [first = '', second = ''] = lines
  const version = /^BagIt-Version: ([0-9]+\.[0-9]+)$/.exec(first)?.[1]
  const encoding = /^Tag-File-Character-Encoding: ([!-~]+)$/.exec(second)?.[1]
  if (version === undefined) return wrong('Its first line does not state the version.')
  if (encoding === undefined) return wrong('Its second line does not state the encoding.')
  if (lines.length > 2) return wrong('It has more than two lines.')
  if (!VERSIONS.includes(version))
    return wrong(`It states version ${version} of BagIt, and this program reads 0.93 to 0.97 and 1.0.`)
  return { version, isFinal: version === '1.0', encoding }
}
