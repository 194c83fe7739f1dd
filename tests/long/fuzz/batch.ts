import { mkdir, readFile, rm } from 'node:fs/promises'
import { join } from 'node:path'
import { debianTool } from '../../outside/debian.ts'
import { denied, type Examined, Examiner, nameOf } from './examine.ts'
import { mutant } from './mutant.ts'
import { drawOriginals } from './originals.ts'
import { readFolder } from './outside/exiftool.ts'

/** Files from one number up to, and without, another. */
export interface Range {
  readonly seed: number
  readonly from: number
  readonly to: number
}

/** What a batch says as it goes on, one line of JSON each. */
export type Message =
  | { readonly kind: 'start'; readonly number: number }
  | {
      readonly kind: 'done'
      readonly number: number
      readonly fate: string
      readonly passes: boolean
      readonly ms: number
    }
  | { readonly kind: 'finding'; readonly number: number; readonly how: string; readonly finding: string }
  | { readonly kind: 'reading' }
  | { readonly kind: 'end'; readonly largestMiB: number }

/** All groups of measurements are measured of one file in so many, the others without the face. */
const SAMPLE = 50

/**
 * Examines the files of a range one after the other.
 * @param folder of its own, emptied
 * @param largestMiB memory that the process has taken at most, so far
 */
export async function runBatch(
  { seed, from, to }: Range,
  folder: string,
  tell: (message: Message) => void,
  largestMiB: () => number,
): Promise<void> {
  await rm(folder, { recursive: true, force: true })
  await mkdir(folder, { recursive: true })
  const originals = await drawOriginals()
  const examiner = new Examiner(folder)
  const whole: { number: number; file: string; how: string; examined: Examined }[] = []
  for (let number = from; number < to; number++) {
    const spoiled = mutant(number, seed, originals)
    const how = `${spoiled.original.name}, ${spoiled.by}`
    tell({ kind: 'start', number })
    const start = performance.now()
    const examined = await examiner.examine(number, spoiled, number % SAMPLE === SAMPLE - 1)
    const { fate, outcomes, findings } = examined
    const passes = outcomes.every(({ verdict }) => verdict === 'pass' || verdict === 'skip')
    tell({ kind: 'done', number, fate, passes, ms: Math.round(performance.now() - start) })
    for (const finding of findings) tell({ kind: 'finding', number, how, finding })
    if (fate === 'whole') whole.push({ number, how, examined, file: nameOf(number, spoiled.original.format) })
  }
  const exiftool = debianTool('libimage-exiftool-perl', 'exiftool')
  tell({ kind: 'reading' })
  const told = exiftool === null ? null : await readFolder(exiftool, folder)
  for (const { number, how, examined, file } of told ? whole : []) {
    const content = await readFile(join(folder, file))
    for (const finding of denied(examined, told?.get(file), content))
      tell({ kind: 'finding', number, how, finding })
  }
  await rm(folder, { recursive: true, force: true })
  tell({ kind: 'end', largestMiB: largestMiB() })
}
