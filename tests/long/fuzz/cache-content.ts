import { readdir, readFile, stat } from 'node:fs/promises'
import { join, relative } from 'node:path'
import { openEntries } from '../../../src/cache/entries.ts'
import { openIndex } from '../../../src/cache/file-index.ts'
import { measurerId } from '../../../src/cache/measurer.ts'
import { PART } from '../../../src/files/replace-whole.ts'
import { measure } from '../../../src/measure/measure.ts'
import { GROUPS, type Picture } from './small-delivery.ts'

/** Where a run keeps what it measured. */
export interface CachePlace {
  readonly entries: string
  readonly index: string
}

/** Looks into a cache with the code of the command that wrote it. */
export interface CacheReader {
  /** What in it is half-written, damaged or untrue; parts that a kill left are none of that. */
  wrong(place: CachePlace): Promise<string[]>
  /** Files whose content the index knows. */
  indexed(index: string): Promise<Set<string>>
}

/** @param pictures all that was ever measured into the caches to look into */
export async function cacheReader(pictures: readonly Picture[]): Promise<CacheReader> {
  // The packed form holds the hash of the sources that it was made of, so that these modules are its own.
  const measurer = measurerId()
  const truth = new Map<string, string>()
  for (const picture of pictures) truth.set(picture.path, JSON.stringify(await measure(picture, GROUPS)))

  const wrongEntries = async (folder: string) => {
    const entries = openEntries({ folder, measurer })
    const wrong: string[] = []
    const opened = new Set<string>()
    for (const { path, file, sha256 } of pictures) {
      const found = await entries.find(sha256, GROUPS, { file })
      if (found) opened.add(sha256)
      if (found && JSON.stringify(found) !== truth.get(path)) wrong.push(`the entry of ${file} is untrue`)
    }
    const files = await wholeFiles(folder)
    if (files.length !== opened.size) wrong.push(`of ${files.length} entries ${opened.size} open`)
    return wrong
  }
  const wrongListings = async (folder: string) => {
    const wrong: string[] = []
    for (const file of await wholeFiles(folder))
      if (!isJson(await readFile(file, 'utf8')))
        wrong.push(`the listing ${relative(folder, file)} is not JSON`)
    const index = openIndex(folder)
    for (const { path, file, sha256 } of pictures)
      if (![null, sha256].includes(await index.look(path)))
        wrong.push(`the listing has other content for ${file}`)
    return wrong
  }
  return {
    wrong: async ({ entries, index }) => [...(await wrongEntries(entries)), ...(await wrongListings(index))],
    async indexed(folder) {
      const index = openIndex(folder)
      const known = new Set<string>()
      for (const { path } of pictures) if ((await index.look(path)) !== null) known.add(path)
      return known
    },
  }
}

/** All files below a folder but those that are being written, absolute. */
export async function wholeFiles(folder: string): Promise<string[]> {
  return (await filesIn(folder)).filter((path) => !path.endsWith(PART))
}

/** Files that are being written, or that a kill left so. */
export async function parts(folder: string): Promise<string[]> {
  return (await filesIn(folder)).filter((path) => path.endsWith(PART))
}

/** Each whole file with what changes when it is written anew. */
export async function written(folder: string): Promise<Map<string, string>> {
  const all = new Map<string, string>()
  for (const path of await wholeFiles(folder)) {
    const { ino, mtimeNs } = await stat(path, { bigint: true })
    all.set(path, `${ino} ${mtimeNs}`)
  }
  return all
}

/** Which of the files are gone or were written anew since. */
export async function lost(before: ReadonlyMap<string, string>, folder: string): Promise<string[]> {
  const now = await written(folder)
  return [...before]
    .filter(([path, state]) => now.get(path) !== state)
    .map(([path]) => relative(folder, path))
}

async function filesIn(folder: string): Promise<string[]> {
  const all = await readdir(folder, { recursive: true, withFileTypes: true })
  return all.filter((one) => one.isFile()).map(({ parentPath, name }) => join(parentPath, name))
}

function isJson(text: string): boolean {
  try {
    return typeof JSON.parse(text) === 'object'
  } catch {
    return false
  }
}
