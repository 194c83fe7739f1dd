import type { Measurements } from '../measure/schema/measurements.ts'
import { splitPath } from './name-parts.ts'

/** Files of one size in pixels: most likely one deliverable. */
export interface SizeGroup {
  readonly name: string
  readonly widthPx: number
  readonly heightPx: number
  readonly files: readonly Measurements[]
}

export interface Sizes {
  readonly groups: readonly SizeGroup[]
  /** Files of sizes that too few others have. */
  readonly odd: readonly Measurements[]
}

/** Share of the files that a size needs to be a deliverable. @choice common practice, no source: a rarer size is an exception. */
const SHARE = 0.1

/** Finds the deliverables by size; each is called as its folder, as a part of its names, or by its size. */
export function groupBySize(files: readonly Measurements[]): Sizes {
  const bySize = new Map<string, Measurements[]>()
  for (const file of files) {
    const size = `${file.widthPx}x${file.heightPx}`
    bySize.set(size, [...(bySize.get(size) ?? []), file])
  }
  const all = [...bySize.values()].sort((a, b) => b.length - a.length || pixels(b) - pixels(a))
  const least = Math.max(2, SHARE * files.length)
  const large = all.filter((group, i) => i === 0 || group.length >= least)
  const taken = new Set<string>()
  const groups = large.map((group): SizeGroup => {
    const [first] = group
    const widthPx = first?.widthPx ?? 0
    const heightPx = first?.heightPx ?? 0
    const others = large.filter((one) => one !== group).flat()
    const found = ownName(group, others)
    const name = found === null || taken.has(found) ? `${widthPx}x${heightPx}` : found
    taken.add(name)
    return { name, widthPx, heightPx, files: group }
  })
  return { groups, odd: all.filter((group) => !large.includes(group)).flat() }
}

function pixels([first]: readonly Measurements[]): number {
  return (first?.widthPx ?? 0) * (first?.heightPx ?? 0)
}

const NAME = /^[\p{L}\p{N}]+(?:[ ._-][\p{L}\p{N}]+)*$/u

/** A folder, or else a word in the names, that all files of the group have and none of the others. */
function ownName(group: readonly Measurements[], others: readonly Measurements[]): string | null {
  const folders = group.map(({ file }) => splitPath(file).folder)
  const [folder] = folders
  const otherFolders = new Set(others.map(({ file }) => splitPath(file).folder))
  if (folder && NAME.test(folder) && folders.every((one) => one === folder) && !otherFolders.has(folder))
    return folder
  if (others.length === 0) return null
  const words = group.map(({ file }) => new Set(wordsOf(file)))
  const foreign = new Set(others.flatMap(({ file }) => wordsOf(file)))
  const own = [...(words[0] ?? [])].filter(
    (word) => words.every((set) => set.has(word)) && !foreign.has(word) && /^\p{L}+$/u.test(word),
  )
  return own[0] ?? null
}

function wordsOf(file: string): string[] {
  return (
    splitPath(file)
      .stem.normalize('NFC')
      .match(/[\p{L}\p{M}]+|[0-9]+/gu) ?? []
  )
}
