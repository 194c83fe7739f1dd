import { mergedName } from '../delivery/portability.ts'
import { quote } from '../text/quote.ts'

/**
 * Paths of files and folders, no two of which may be one on a system that ignores letter case, or stores accents in one way;
 * nor a file and a folder.
 */
export class DistinctNames {
  readonly #seen = new Map<string, { path: string; isFolder: boolean }>()

  /** Adds a path and the folders above it; says why not, to stand after the archive's name, or null. */
  add(path: string, isFolder: boolean): string | null {
    const parts = path.split('/')
    for (let depth = 1; depth < parts.length; depth++) {
      const why = this.#add(parts.slice(0, depth).join('/'), true)
      if (why !== null) return why
    }
    return this.#add(path, isFolder)
  }

  #add(path: string, isFolder: boolean): string | null {
    const name = mergedName(path)
    const before = this.#seen.get(name)
    if (before === undefined) this.#seen.set(name, { path, isFolder })
    else if (!isFolder || !before.isFolder || before.path !== path) {
      const both = before.path === path ? `${quote(path)} twice` : `${quote(before.path)} and ${quote(path)}`
      return `holds ${both}: on some systems one would overwrite the other`
    }
    return null
  }
}
