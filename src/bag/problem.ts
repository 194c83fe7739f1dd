/** What is wrong with a bag. */
export type BagFault =
  /** `bagit.txt`, a folder or a tag file that every bag has is missing or not as it should be. */
  | 'structure'
  /** A line of a tag file that can't be read. */
  | 'line'
  /** A path that leads out of the bag, or a link. */
  | 'path'
  /** A file that is listed and not there. */
  | 'missing'
  /** A file that is listed as still to be downloaded. */
  | 'to-fetch'
  /** A file that is there and not listed. */
  | 'unlisted'
  /** A path that is listed more than once. */
  | 'twice'
  /** Number and size of the files are not those that `bag-info.txt` states. */
  | 'oxum'
  /** A file that is not the one that was packed. */
  | 'changed'
  /** A file that could not be read. */
  | 'unreadable'
  /** Names that differ only in letter case or in how accents are stored. */
  | 'twins'
  /** Lists of tag files that name different files: lines of one were lost. */
  | 'lists'
  /** A checksum that is unknown here, or one that anybody can forge. */
  | 'algorithm'

/** Something to be told of a bag. */
export interface BagProblem {
  readonly fault: BagFault
  /** Path from the bag's own folder, with `/`; null when it is about the bag as a whole. */
  readonly file: string | null
  /** A sentence, or two: what is, what should be, what to do. */
  readonly message: string
}

/**
 * Collects what is to be told of a bag, each once: problems, which make it incomplete or invalid, and warnings.
 */
export class Findings {
  readonly problems: BagProblem[] = []
  readonly warnings: BagProblem[] = []
  readonly #told = new Set<string>()

  problem(fault: BagFault, file: string | null, message: string): void {
    if (this.#isNew(file, message)) this.problems.push({ fault, file, message })
  }

  warning(fault: BagFault, file: string | null, message: string): void {
    if (this.#isNew(file, message)) this.warnings.push({ fault, file, message })
  }

  /** Several lists may have the same to say of a file. */
  #isNew(file: string | null, message: string): boolean {
    const key = `${file}\0${message}`
    const isNew = !this.#told.has(key)
    this.#told.add(key)
    return isNew
  }
}
