import { relative, sep } from 'node:path'
import { mergedName } from '../../delivery/portability.ts'
import { isInside } from '../../files/folders.ts'
import { realPlace } from '../../files/real-place.ts'

/** Where a path lies in a delivery. */
export interface Seat {
  /** Its names below the delivery's folder; none for what was given by itself. */
  readonly below: readonly string[]
  /** The delivery's folder, from the top of the repository, where the path spells it in another way; else null. */
  readonly twin: string | null
}

/** Where a delivery lies in a repository: its folders and files as they are named, and as they are without links. */
export class Scope {
  readonly #places: readonly { readonly path: string; readonly merged: readonly string[] }[]

  private constructor(paths: readonly string[]) {
    this.#places = paths.map((path) => ({ path, merged: namesOf(path).map(mergedName) }))
  }

  /** @param top of the repository, absolute and free of links; @param paths absolute */
  static async of(top: string, paths: readonly string[]): Promise<Scope> {
    const real = await Promise.all(paths.map(realPlace))
    const inside = [...paths, ...real].flatMap((path) => (path !== null && isInside(path, top) ? [path] : []))
    return new Scope([...new Set(inside.map((path) => relative(top, path).split(sep).join('/')))])
  }

  /**
   * Null for what lies elsewhere. What some systems take for one name (letter case, Unicode normalization) is one here.
   * @param path from the top of the repository, with /
   */
  find(path: string): Seat | null {
    const names = namesOf(path)
    const merged = names.map(mergedName)
    const holding = this.#places.filter((one) => one.merged.every((name, index) => name === merged[index]))
    // The nearest: what is hidden in one folder that is given may be given itself.
    const [nearest] = holding.sort((a, b) => b.merged.length - a.merged.length)
    if (nearest === undefined) return null
    const isOwn = holding.some((one) => one.path === names.slice(0, one.merged.length).join('/'))
    return { below: names.slice(nearest.merged.length), twin: isOwn ? null : nearest.path }
  }
}

function namesOf(path: string): string[] {
  return path === '' ? [] : path.split('/')
}
