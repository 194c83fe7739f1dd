import { type Entry, getFileNameLowLevel } from 'yauzl'
import { portabilityProblems } from '../delivery/portability.ts'
import { quote } from '../text/quote.ts'

/**
 * The path of a file in a zip. Where the zip does not say that it is in UTF-8, it is so when it can be, since some systems
 * forget to say so; else in code page 437 (APPNOTE, appendix D).
 */
export function entryName(entry: Entry): string {
  const { generalPurposeBitFlag: flags, fileNameRaw: raw, extraFields } = entry
  try {
    return new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(raw)
  } catch {
    return getFileNameLowLevel(flags, raw, extraFields, true)
  }
}

/** Longest path, in UTF-16 units. @choice what Windows refuses by default, MAX_PATH, less a folder to unpack into, four times over */
const LONGEST = 800

/** What a program that starts by a double click, or what opens one, ends in. @choice from memory, no source */
const PROGRAMS =
  /\.(?:exe|com|bat|cmd|scr|pif|msi|msp|cpl|dll|jar|js|jse|vbs|vbe|wsf|wsh|hta|ps1|psm1|reg|lnk|url|desktop|sh|command|app|pkg|dmg|deb|rpm|apk)$/i

/** Why a name is not unpacked, after it: "is an absolute path"; null for a good one. @param path without the slash of a folder */
export function whyRefused(path: string): string | null {
  const name = quote(path)
  if (path === '') return 'holds a file without a name'
  if (path.includes('\0')) return `holds ${name}, which has a NUL in its name`
  if (path.includes('\\')) return `holds ${name}, which has a backslash in its name`
  if (path.startsWith('/') || /^[a-z]:/i.test(path))
    return `holds ${name}, which would go to the root of a disk`
  const parts = path.split('/')
  if (parts.includes('..')) return `holds ${name}, which would go out of the folder`
  if (parts.includes('') || parts.includes('.')) return `holds ${name}, whose path has an empty part`
  if (path.length > LONGEST) return `holds ${name}, whose path is longer than ${LONGEST} characters`
  for (const problem of portabilityProblems(path)) {
    if (problem.kind === 'windows')
      return `holds ${name}: ${quote(problem.part)} ${problem.why}, which Windows refuses`
    if (problem.kind === 'unseen') return `holds ${name}, which has an invisible character in its name`
    if (problem.kind === 'not-utf8') return `holds ${name}, whose name can't be read`
  }
  return PROGRAMS.test(path) ? `holds ${name}, a program or what starts one` : null
}
