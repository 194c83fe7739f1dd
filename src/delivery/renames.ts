import type { Rename } from '../naming/rename.ts'
import { mergedName, portabilityProblems } from './portability.ts'

/** A file with the name that it should have. */
export interface NamedFile {
  readonly path: string
  /** Null when nobody can tell; the path itself when the name is right. */
  readonly wanted: string | null
  /** Whether the picture has the format that the wanted name says. */
  readonly fits: boolean
  /** Whether its name says that it is a copy. */
  readonly isCopy: boolean
}

/** Whether two files are the same: byte for byte, as pictures, or not that anybody knows. */
export type Compare = (a: string, b: string) => 'bytes' | 'picture' | null

/**
 * What is to become of each file with a wrong name, by its path. No two files get one name, nor names that some system
 * takes for one; no file gets the name of another that keeps it. Copies of the file that has or gets the name are to be
 * deleted. The renames can be made in any order once the copies are gone.
 */
export function planRenames(files: readonly NamedFile[], compare: Compare): ReadonlyMap<string, Rename> {
  const plan = new Map<string, Rename>()
  for (const [wanted, group] of claims(files)) settle(wanted, group, compare, plan)
  refuseTaken(files, plan)
  return plan
}

/** The files that should have one name, or names that some system takes for one; the first to be kept. */
function claims(files: readonly NamedFile[]): [string, NamedFile[]][] {
  const groups = new Map<string, NamedFile[]>()
  for (const file of files) {
    // What could not be read of a name (U+FFFD) can't be told to a system either.
    if (file.wanted === null || file.path.includes('\ufffd')) continue
    if (portabilityProblems(file.wanted).length > 0) continue
    const key = mergedName(file.wanted)
    const others = groups.get(key)
    if (others) others.push(file)
    else groups.set(key, [file])
  }
  return [...groups.values()].map((group) => {
    const ranked = group.map((file, index) => ({ file, rank: rankOf(file), index }))
    ranked.sort((a, b) => a.rank - b.rank || a.index - b.index)
    const sorted = ranked.map(({ file }) => file)
    return [sorted[0]?.wanted ?? '', sorted]
  })
}

function rankOf({ path, wanted, fits, isCopy }: NamedFile): number {
  if (path === wanted) return 0
  return (isCopy ? 2 : 1) + (fits ? 0 : 2)
}

function settle(wanted: string, group: readonly NamedFile[], compare: Compare, plan: Map<string, Rename>) {
  const [keeper, ...others] = group
  if (!keeper) return
  const rivals: string[] = []
  for (const { path, wanted: own } of others) {
    const by = compare(keeper.path, path)
    if (by !== null && path !== own) plan.set(path, { from: path, sameAs: keeper.path, by })
    else rivals.push(path)
  }
  if (rivals.length === 0) {
    const from = keeper.path
    if (from !== wanted)
      plan.set(from, keeper.fits ? { from, to: wanted } : { from, refused: 'format', wanted })
    return
  }
  for (const { path, wanted: own } of group) {
    if (plan.has(path) || path === own || own === null) continue
    const rest = [keeper.path, ...rivals].filter((other) => other !== path)
    plan.set(path, { from: path, refused: 'clash', wanted: own, others: rest })
  }
}

/** Refuses what would take the name of another file, even of one that is to be renamed itself: the next run sees it free. */
function refuseTaken(files: readonly NamedFile[], plan: Map<string, Rename>) {
  if (plan.size === 0) return
  const holders = new Map<string, string[]>()
  for (const { path } of files) {
    const twins = holders.get(mergedName(path))
    if (twins) twins.push(path)
    else holders.set(mergedName(path), [path])
  }
  for (const rename of plan.values()) {
    if (!('to' in rename)) continue
    const { from, to: wanted } = rename
    const others = (holders.get(mergedName(wanted)) ?? []).filter((path) => path !== from)
    if (others.length > 0) plan.set(from, { from, refused: 'clash', wanted, others })
  }
}
