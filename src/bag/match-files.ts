import { mergedName } from '../delivery/portability.ts'
import type { Listing } from './listing.ts'
import type { Manifest } from './manifest.ts'
import type { Findings } from './problem.ts'

/** Files that systems put into folders by themselves. */
const SYSTEM_FILE = /(?:^|\/)(?:\.DS_Store|Thumbs\.db|desktop\.ini)$/i

/** Whether a file is one that a system puts into a folder by itself. */
export function isSystemFile(path: string): boolean {
  return SYSTEM_FILE.test(path)
}

/**
 * Finds the file that an entry of a manifest means. Systems store accents in several ways, so that a name in another form
 * of Unicode is the same file when only one can be meant (RFC 8493, 5.2: implementations should expect this).
 */
export class FileFinder {
  readonly #listing: Listing
  readonly #byForm = new Map<string, string[]>()

  constructor(listing: Listing) {
    this.#listing = listing
    for (const path of listing.keys()) {
      const form = path.normalize('NFC')
      this.#byForm.set(form, [...(this.#byForm.get(form) ?? []), path])
    }
  }

  /** The path as it is on the disk; null when there is none. */
  find(path: string): string | null {
    if (this.#listing.has(path)) return path
    const [only, ...others] = this.#byForm.get(path.normalize('NFC')) ?? []
    return only !== undefined && others.length === 0 ? only : null
  }
}

/**
 * Finds the files that a manifest lists; what is missing goes to the findings.
 * @param toFetch paths that are still to be downloaded
 * @returns the paths of the entries, by the paths of the files on the disk
 */
export function matchFiles(
  manifest: Manifest,
  { finder, toFetch, isFinal }: { finder: FileFinder; toFetch: ReadonlySet<string>; isFinal: boolean },
  findings: Findings,
): ReadonlyMap<string, string> {
  const matched = new Map<string, string>()
  const absent: string[] = []
  for (const path of manifest.entries.keys()) {
    const found = finder.find(path)
    if (found === null) absent.push(path)
    else if (matched.has(found)) {
      if (isFinal) findings.problem('twins', path, 'It is listed twice, with accents stored in two ways.')
      else findings.warning('twins', path, 'It is listed twice, with accents stored in two ways.')
    } else {
      matched.set(found, path)
      if (found !== path)
        findings.warning(
          'twins',
          path,
          'The accents of the name are stored in another way than the manifest lists them.',
        )
    }
  }
  const present = new Set([...matched.values()].map((path) => twinKey(path, manifest)))
  for (const path of absent) {
    if (toFetch.has(path)) continue
    // What drafts only warn of.
    if (!isFinal && isSystemFile(path))
      findings.warning('missing', path, 'This file of an operating system is listed and not there.')
    else if (!isFinal && present.has(twinKey(path, manifest)))
      findings.warning(
        'twins',
        path,
        'It is listed beside a name that differs only in letter case, and there is one file for both.',
      )
    else findings.problem('missing', path, 'It was packed and is not there. Ask the sender for it.')
  }
  return matched
}

function twinKey(path: string, { entries }: Manifest): string {
  return `${entries.get(path)} ${mergedName(path)}`
}
