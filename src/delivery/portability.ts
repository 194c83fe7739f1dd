import type { NameProblem } from '../naming/name-reading.ts'

/** Longest name of one folder or file, in UTF-16 units (Microsoft, as below). */
const LONGEST = 255

// Microsoft, "Naming Files, Paths, and Namespaces"; CONIN$, CONOUT$ and the superscript digits from memory.
const DEVICE = /^(?:con|prn|aux|nul|com[1-9¹²³]|lpt[1-9¹²³]|conin\$|conout\$) *(?:\.|$)/i
const REFUSED = /[<>:"|?*\\]/
// biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is looked for.
const CONTROL = /[\x00-\x1f]/
// What shows nothing or turns the reading direction (UAX #44, Default_Ignorable_Code_Point; line separators): a name with it
// looks like another one. Zero-width joiners and variation selectors stay: names in several scripts need them.
const UNSEEN = /(?!\u200c|\u200d|\p{VS})[\p{DI}\p{Zl}\p{Zp}]/u

// Most names: in NFC, with letters that fold to small ones, and nothing that any system refuses but the names of devices.
const PLAIN = /^[A-Za-z0-9_-]+(?:\.[A-Za-z0-9_-]+)*$/

/** What in a path (relative, with `/`) some systems refuse or take for another name. */
export function portabilityProblems(path: string): NameProblem[] {
  const problems: NameProblem[] = []
  if (path.includes('\ufffd')) problems.push({ kind: 'not-utf8' })
  const parts = path.split('/')
  for (const [index, part] of parts.entries()) {
    if (PLAIN.test(part) && part.length <= LONGEST && !DEVICE.test(part)) continue
    const composed = parts
      .slice(0, index + 1)
      .join('/')
      .normalize('NFC')
    const where = index < parts.length - 1 ? { folder: composed } : {}
    if (part.normalize('NFC') !== part) problems.push({ kind: 'not-nfc', composed, ...where })
    const unseen = UNSEEN.exec(part)?.[0].codePointAt(0)
    if (unseen !== undefined) {
      const character = `U+${unseen.toString(16).toUpperCase().padStart(4, '0')}`
      problems.push({ kind: 'unseen', character, ...where })
    }
    problems.push(...refusals(part).map((why): NameProblem => ({ kind: 'windows', part, why, ...where })))
  }
  return problems
}

/** Why Windows refuses a name, each to stand after it: "ends with a period". */
function refusals(part: string): string[] {
  const refused = REFUSED.exec(part)
  return [
    ...(refused ? [`contains the character ${refused[0]}`] : []),
    ...(CONTROL.test(part) ? ['contains a control character'] : []),
    ...(DEVICE.test(part) ? ['is reserved for a device'] : []),
    ...(part.endsWith('.') ? ['ends with a period'] : []),
    ...(part.endsWith(' ') ? ['ends with a space'] : []),
    ...(part.length > LONGEST ? [`is longer than ${LONGEST} characters`] : []),
  ]
}

/**
 * What is the same for all paths that a system which keeps letter case apart from the name would merge: Unicode's full
 * case folding (CaseFolding.txt, status C and F) of the NFC form.
 */
export function mergedName(path: string): string {
  if (PLAIN.test(path)) return path.toLowerCase()
  // Mapping down, up and down again is the folding, but for the dotless i, which folds to itself.
  return path
    .normalize('NFC')
    .split('ı')
    .map((part) => part.toLowerCase().toUpperCase().toLowerCase())
    .join('ı')
    .normalize('NFC')
}

/** For each path the problem of another one that would overwrite it; null where there is none. */
export function collisions(paths: readonly string[]): (NameProblem | null)[] {
  const twins = new Map<string, string[]>()
  const merged = paths.map(mergedName)
  for (const [i, path] of paths.entries()) {
    const name = merged[i] as string
    const group = twins.get(name)
    if (group) group.push(path)
    else twins.set(name, [path])
  }
  return paths.map((path, i) => {
    const other = twins.get(merged[i] as string)?.find((twin) => twin !== path)
    if (other === undefined) return null
    const by = other.normalize('NFC') === path.normalize('NFC') ? 'normalization' : 'case'
    return { kind: 'collision', with: other, by }
  })
}
