import { dirname, isAbsolute, join, resolve } from 'node:path'
import { extensionOf } from '../brand-spec/layer.ts'
import { isInside } from '../files/folders.ts'
import { realPlace } from '../files/real-place.ts'
import { readSourceText, type SourceText } from '../files/source-text.ts'
import type { PlacedProblem } from '../text/placed-problem.ts'

/** Most specs that extend one another. @choice firm, country, office and a season, twice over */
const MOST = 8

/** Reads a text by its path; what is wrong follows the file's name: "is not there. ..." */
export type ReadText = (file: string) => Promise<{ text: string } | { problem: string }>

export interface ExtendedSpecs {
  /** The spec that one extends, the one which that extends, and so on, as far as they could be read. */
  readonly extended: readonly SourceText[]
  /** Why the next one could not be read, at the line that names it. */
  readonly problems: readonly (PlacedProblem & { readonly file: string })[]
}

/** Reads the specs that one extends. Their paths are told as the one that names them leads to them. */
export async function readExtended(spec: SourceText, read: ReadText): Promise<ExtendedSpecs> {
  const chain = [spec]
  for (let last = spec; ; ) {
    const extension = extensionOf(last.text)
    const extended = chain.slice(1)
    if (extension === null) return { extended, problems: [] }
    const { path, line, column } = extension
    const file = join(dirname(last.file), path)
    const refused = refusal(path, file, chain)
    const next = refused === null ? await read(file) : { problem: refused }
    if ('problem' in next) {
      const message = `extends is "${path}": ${refused ?? `the file ${file} ${next.problem}`}`
      return { extended, problems: [{ file: last.file, line, column, message }] }
    }
    last = { file, text: next.text }
    chain.push(last)
  }
}

/** Why a spec can't be extended whatever stands there. A stranger's spec must not have other texts shown in complaints. */
function refusal(path: string, file: string, chain: readonly SourceText[]): string | null {
  if (isAbsolute(path) || path.includes('\\') || /^[a-z]+:/i.test(path))
    return 'it should be a path from the folder of this file, with /, such as ../group.yaml.'
  if (!/\.ya?ml$/i.test(path)) return 'a spec ends in .yaml or .yml; name one that does.'
  const names = chain.map((one) => join(one.file))
  if (names.includes(file))
    return `that leads back to ${file}, in a circle (${[...names, file].join(', then ')}). Take one of these lines out.`
  if (chain.length > MOST) return `more than ${MOST} specs extend one another. Join some of them.`
  return null
}

/**
 * Reads from the disk.
 * @param cwd folder that paths refer to
 * @param within folder that they must not leave, by name or by a link; null for no limit
 */
export function fromDisk(cwd: string, within: string | null = null): ReadText {
  return async (file) => {
    const full = resolve(cwd, file)
    if (within !== null) {
      const [real, limit] = [await realPlace(full), await realPlace(within)]
      if (!isInside(full, within) || real === null || limit === null || !isInside(real, limit))
        return {
          problem:
            'leads out of the workspace. Name a file of the repository, and no link that leads elsewhere.',
        }
    }
    return readSourceText(full)
  }
}
