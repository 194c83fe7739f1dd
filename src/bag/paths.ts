/** The folder that holds what was packed (RFC 8493, 2.1.2), with the slash. */
export const PAYLOAD = 'data/'

/** Why a path of a tag file is refused; null for one that stays in the bag. */
export function whyOutside(path: string): string | null {
  if (path.startsWith('/') || /^[a-z]:/i.test(path)) return 'begins at the root of a disk'
  if (path.includes('\\')) return 'has a backslash, which some systems take for the border of a folder'
  if (path.startsWith('~')) return 'begins with a tilde, which stands for a home folder'
  if (path.split('/').some((part) => part === '..' || part === '.' || part === ''))
    return 'has a part that is empty, "." or ".."'
  return null
}

/** A path as a manifest of RFC 8493 (1.0) writes it: only line breaks and percent signs are encoded (2.1.3). */
export function encodedPath(path: string): string {
  return path.replaceAll('%', '%25').replaceAll('\n', '%0A').replaceAll('\r', '%0D')
}

/** The path that a manifest means. @param isFinal drafts did not encode the percent sign */
export function decodedPath(written: string, isFinal: boolean): string {
  const encoded = isFinal ? /%(0a|0d|25)/gi : /%(0a|0d)/gi
  return written.replace(encoded, (_, digits: string) => String.fromCharCode(Number.parseInt(digits, 16)))
}

/** A leading "./", which drafts did not forbid, is left out. */
export function withoutDot(path: string): string {
  return path.replace(/^(?:\.\/)+/, '')
}
