/** What a process runs out of, by the system's codes, in words. @source POSIX.1-2017, System Interfaces, 2.3 "Error Numbers". */
const CODES = {
  EMFILE: 'this process may open no more files at once; raise the limit, for example with ulimit -n 1024',
  ENFILE: 'the system can open no more files at once; end other programs',
  ENOMEM: 'there is not enough memory; end other programs, or raise the limit (ulimit -v)',
} as const

/** Words of errors of V8 and Node.js that stand for the lack of memory; seen under `ulimit -v`. */
const MEMORY = /\b(?:could not allocate memory|cannot allocate|allocation failed|out of memory)\b/i

/** How libtiff ends what it says of a tag that states more bytes than there can be, and does without: what fails afterwards fails for another reason. */
const DONE_WITHOUT = 'tag ignored'

/** Files at once below which Node.js may miss parts of a program that are there. @choice loading the program opens some 100, no source. */
const FEW_FILES = 256

/**
 * What the process has run out of, and what to do, when that is why something failed: it says nothing of a file that was
 * just being read. Null for any other error.
 */
export function shortageOf(error: unknown): string | null {
  if (!(error instanceof Error)) return null
  // An error of a thread keeps its message, but not its code; of a thread that can't be started the code ends it.
  const { message } = error
  const code = Object.entries(CODES).find(
    ([known]) => message.startsWith(`${known}:`) || message.endsWith(`: ${known}`),
  )
  if (code) return code[1]
  const lines = message.split('\n').filter((line) => !line.trimEnd().endsWith(DONE_WITHOUT))
  return MEMORY.test(lines.join('\n')) ? CODES.ENOMEM : null
}

/**
 * The same of an error that ends the program: where it may open few files, Node.js says that parts of it are not there.
 * @param report of the process: the diagnostic report of Node.js (Node.js documentation, "Diagnostic report")
 */
export function fatalShortageOf(error: unknown, report: () => object): string | null {
  const isMissing = error instanceof Error && 'code' in error && error.code === 'ERR_MODULE_NOT_FOUND'
  const files = isMissing ? mostFiles(report()) : null
  return files !== null && files < FEW_FILES ? CODES.EMFILE : shortageOf(error)
}

function mostFiles(report: object): number | null {
  const limits: unknown = Reflect.get(report, 'userLimits')
  const files: unknown = typeof limits === 'object' && limits && Reflect.get(limits, 'open_files')
  const soft: unknown = typeof files === 'object' && files && Reflect.get(files, 'soft')
  return typeof soft === 'number' ? soft : null
}
