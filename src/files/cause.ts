/** Why a file could not be used, in the system's own word where it has one: "ENOENT". */
export function causeOf(error: unknown): string {
  return error instanceof Error && 'code' in error ? String(error.code) : String(error)
}

/** What to do where a file can't be written, by the system's word. @source POSIX.1-2017, System Interfaces, 2.3 "Error Numbers". */
const STEPS: Readonly<Record<string, string>> = {
  ENOSPC: 'The disk is full: free some space.',
  EDQUOT: 'Your share of the disk is used up: free some space.',
  EROFS: 'The disk can only be read: name a place on another.',
  EACCES: 'You may not write there: name a place where you may.',
  EPERM: 'You may not write there: name a place where you may.',
  ENOENT: 'Its folder is not there: make it, or name another.',
  ENOTDIR: 'Part of its path is a file, not a folder: name another place.',
  EISDIR: 'A folder has that name: name a file.',
  EEXIST: 'Something has that name already: move it away, or name another place.',
  ENAMETOOLONG: 'The name is too long: name a shorter one.',
}

/** Why a file could not be written and what to do, to stand after its name. */
export function notWritten(error: unknown): string {
  const cause = causeOf(error)
  const step = Object.hasOwn(STEPS, cause) ? STEPS[cause] : 'Name a place that you may write to.'
  return `could not be written (${cause}). ${step}`
}
