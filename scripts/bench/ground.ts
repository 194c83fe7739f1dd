import { mkdir, readdir, writeFile } from 'node:fs/promises'
import { join, resolve } from 'node:path'
import process from 'node:process'
import { fileURLToPath } from 'node:url'
import { copyCorpus, linkCorpus } from './corpus.ts'
import { fileSpec, fullSpec } from './spec.ts'
import { type Run, timed } from './timed.ts'

/** What the parts of the bench work with: drawn portraits, deliveries of links to them, specs, and commands. */
export interface Ground {
  /** Portraits that are drawn. */
  readonly drawn: number
  /** Portraits of the large delivery. */
  readonly most: number
  readonly rounds: number
  /** Whether even the largest delivery is measured file by file, which takes as long as all the rest together. */
  readonly anew: boolean
  readonly say: (text: string) => void
  /** A folder with so many links to drawn portraits. */
  delivery(count: number): Promise<string>
  /** A folder with so many files of their own, no two of one size. */
  ownFiles(count: number): Promise<string>
  check(paths: string, spec: SpecName, ...options: readonly string[]): Promise<Run>
}

/** A part of the bench: measures, and gives a section of docs/benchmark.md. */
export type Part = (ground: Ground) => Promise<string>

type SpecName = 'full' | 'other' | 'files'

/** Where the bench keeps what it works with. */
const HOME = join('.cache', 'bench')
export const CORPUS = join(HOME, 'drawn')
export const CACHE = join(HOME, 'cache')

/** The packed form, which is what is installed. */
export const CLI = join('bundle', 'start.cjs')

export function node(args: readonly string[], worst = 0): Promise<Run> {
  // The bench's own cache and index: what the user's knows of the same files would be found there.
  return timed(process.execPath, args, worst, { XDG_CACHE_HOME: resolve(HOME, 'user') })
}

/** A script of this folder. */
export function script(name: string, ...args: readonly string[]): Promise<Run> {
  return node([fileURLToPath(new URL(`./${name}.js`, import.meta.url)), ...args])
}

export async function prepareGround(
  settings: Pick<Ground, 'drawn' | 'most' | 'rounds' | 'anew' | 'say'>,
): Promise<Ground> {
  await mkdir(HOME, { recursive: true })
  const specs: Record<SpecName, string> = { full: fullSpec(), other: fullSpec(12.5), files: fileSpec() }
  const fileOf = (name: string) => join(HOME, `${name}.yaml`)
  for (const [name, text] of Object.entries(specs)) await writeFile(fileOf(name), text)
  // What is there stays: links made anew would have new times.
  const made = async (name: string, count: number, make: typeof linkCorpus) => {
    const folder = join(HOME, name)
    await mkdir(folder, { recursive: true })
    if ((await readdir(folder)).length !== count)
      await make(CORPUS, Math.min(count, settings.drawn), folder, count)
    return folder
  }
  return {
    ...settings,
    delivery: (count) => made(String(count), count, linkCorpus),
    ownFiles: (count) => made(`own-${count}`, count, copyCorpus),
    check: (paths, spec, ...options) =>
      // Some of the drawn portraits miss a band: code 1 is a report all the same.
      node(
        [CLI, 'check', paths, '--spec', fileOf(spec), '--output', join(HOME, 'report.txt'), ...options],
        1,
      ),
  }
}
