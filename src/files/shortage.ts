/** What a process runs out of, by the system's codes, in words. @source POSIX.1-2017, System Interfaces, 2.3 "Error Numbers". */
const CODES: Readonly<Record<string, string>> = {
  EMFILE: 'this process may open no more files at once; raise the limit, for example with ulimit -n 1024',
  ENFILE: 'the system can open no more files at once; end other programs',
  ENOMEM: 'there is not enough memory; end other programs, or raise the limit (ulimit -v)',
}

/** Words of errors of V8 and Node.js that stand for the lack of memory; from memory, and seen under `ulimit -v`. */
const MEMORY = /\b(?:could not allocate memory|cannot allocate|allocation failed|out of memory)\b/i

/**
 * What the process has run out of, and what to do, when that is why something failed: it says nothing of a file that was
 * just being read. Null for any other error.
 */
export function shortageOf(error: unknown): string | null {
  if (!(error instanceof Error)) return null
  // An error of a thread keeps its message, but not its code.
  const [code = ''] = error.message.split(':', 1)
  const known = Object.hasOwn(CODES, code) ? CODES[code] : undefined
  return known ?? (MEMORY.test(error.message) ? (CODES.ENOMEM ?? null) : null)
}
